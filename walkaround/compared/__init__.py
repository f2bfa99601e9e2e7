"""Two walks of one vehicle, made by two people who saw nothing of each other's answers.

Where they differ is told step by step: what was answered by what was seen of each thing, what was
read by the numbers. How far they agree beyond chance is Cohen's kappa.
"""
