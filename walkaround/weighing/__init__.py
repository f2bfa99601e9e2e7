"""What may be wrong, weighed by what is known of it, and the thing to do that tells most.

Lamps (`causes`) and air (`leaks`) have models of their own of what a fault does. How faults are
ranked by what was seen, put together where they look alike, and told apart at the least effort is
one idea for both, and is here: a fault comes in variants, every thing known has a chance with each
of them, and the last variant of all is a vehicle without a fault.
"""
