"""The arithmetic of cooking: amounts, units, printing, ovens, tins, scoops, scaling."""
