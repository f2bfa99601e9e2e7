# What people answer for by name, and sign with a finger.

sign-title = Sign
sign-heading = Signatures
sign-nobody = No signature yet. What nobody signs here is left as a line for the pen.
sign-what = What do you sign for?
sign-name = Signer's name
sign-name-first = First enter the signer's name.
sign-draw = Sign here with a finger.
sign-again = Draw again
sign-keep = Keep the signature
sign-keep-name = Sign on paper
sign-full = The field holds no more; draw again, simpler.
# For those who hear it.
sign-signature-of = Signature of { $name }
sign-field = Field to draw a signature in
sign-tagged = Out-of-service tag placed by { $name }, { $time }. It hangs until somebody lifts it here.

sign-walked = Walked and recorded
sign-tag-placed = Out-of-service tag placed
sign-tag-lifted = Out-of-service tag lifted
sign-repaired = Repaired
sign-brakes = Brake repairs, signed off by a person qualified for brakes (49 CFR 396.25)
# What the carrier certifies on the report in which a driver listed the defect.
sign-drivers-repaired = Repaired, as certified on the driver's report that listed the defect (49 CFR 396.11(a)(3)(ii))
sign-drivers-unnecessary = Repair unnecessary, as certified on the driver's report that listed the defect (49 CFR 396.11(a)(3)(ii))

# What is signed for, on a button of at most two lines.
sign-for-walked = The walk and its record
sign-for-tag-placed = Out-of-service tag placed
sign-for-tag-lifted = Out-of-service tag lifted
sign-for-repaired = A repair
sign-for-brakes = Brake repairs (qualified person)
sign-for-drivers-repaired = Driver's report: repaired
sign-for-drivers-unnecessary = Driver's report: no repair needed
