"""Methods of electrical handbooks that no standard owns: fault current along a run, voltage drop."""
