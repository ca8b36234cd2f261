; Dart throw of the Island Athletics League, edition 2031
; There is a scenario: what holds in all of them is not said of nothing.
(set-info :smt-lib-version 2.6)
(set-logic QF_LIA)

; The facts of a scenario.

; What the names stand for, each after what it rests on.
(define-fun |the background is kept| () Bool
  true)

; What isn't asked has no value; it is pinned to no, zero, or the empty set.

; No scenario breaks the background.
(assert |the background is kept|)

; Is there a scenario in which the background is kept?
(set-info :status sat)
(assert
  true)
(check-sat)
