; Dart throw of the Island Athletics League, edition 2031
; The narrow reading of every vague term lies within its broad one.
(set-info :smt-lib-version 2.6)
(set-logic QF_LIA)

; The facts of a scenario.

; What the names stand for, each after what it rests on.
(define-fun |the background is kept| () Bool
  true)

; What isn't asked has no value; it is pinned to no, zero, or the empty set.

; No scenario breaks the background.
(assert |the background is kept|)

; Is there a scenario in which the narrow reading of some vague term is true and its broad one is not?
(set-info :status unsat)
(assert
  false)
(check-sat)
