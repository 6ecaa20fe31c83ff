"""The family of errors.

EllwandError
├── BadInput (ValueError)      what a person gave is wrong; one clear sentence with a mend
│   └── CannotDraft            the choices are legal one by one, but cannot be cut together
└── InternalFault (RuntimeError)  a promise inside the program is broken; never the user's doing
"""

from __future__ import annotations


class EllwandError(Exception):
    """Any error that Ellwand raises on purpose."""


class BadInput(EllwandError, ValueError):
    """Something given is wrong.

    ``where`` names the place (``garment.body.ease``), ``problem`` says what is wrong there, and
    ``mend`` what would do.  ``str()`` is one sentence.
    """

    def __init__(self, where: str, problem: str, mend: str = "") -> None:
        self.where = where
        self.problem = problem
        self.mend = mend
        sentence = f"{where}: {problem}" if where else problem
        if mend:
            sentence = f"{sentence}; {mend}"
        super().__init__(sentence + ".")

    def inside(self, prefix: str) -> BadInput:
        """The same error, placed inside ``prefix`` (a file name, say)."""
        where = f"{prefix}: {self.where}" if self.where else prefix
        return type(self)(where, self.problem, self.mend)


class CannotDraft(BadInput):
    """The choices are legal one by one, but no such garment can be cut."""


class InternalFault(EllwandError, RuntimeError):
    """A promise inside the program is broken."""
