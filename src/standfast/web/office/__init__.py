"""The pages of the office: sign in, jobs and their records, people, tablets. They look like paper, and read like it."""
