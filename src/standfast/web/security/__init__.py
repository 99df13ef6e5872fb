"""What stands between the net and the office: who asks, what they may do, how often, how much; what is sent along."""
