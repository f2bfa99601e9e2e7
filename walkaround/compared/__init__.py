"""Two walks of one vehicle, made by two people who saw nothing of each other's answers.

The comparison goes step by step: answers by what was seen of each item, readings by their numbers.
How far the two people agree beyond chance is Cohen's kappa. `later_walks` also says what became of
a walk's open defects since.
"""
