"""The comparison of two walks of one vehicle, by two people who did not see each other's answers.

It goes step by step: answers are compared by what was seen of each item, readings by their numbers.
Cohen's kappa tells how far the two people agree beyond chance. `later_walks` tells what later walks
found of a walk's open defects.
"""
