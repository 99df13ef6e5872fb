"""Where a battery unit may stand: rules measured exactly, in whole tenths of a millimetre.

``solid`` measures, ``layout`` is what is judged, ``asking`` binds a rule to the edition that states it, the modules
named after subjects hold the rules, ``ruling`` sums up, ``whole`` chooses a place on the walls of a job.
"""
