"""EN 1992-4: fastenings in concrete, in N, mm and MPa. Factors of the texts before it come in as inputs."""
