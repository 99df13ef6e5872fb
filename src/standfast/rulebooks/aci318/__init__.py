"""ACI 318 chapter 17: strength of anchors in concrete, in lb, in and psi as the code prints it."""
