"""AC58: strength of adhesive anchors in grouted masonry, in lb, in and psi. Bond and steel go by ACI 318."""
