//! Conditions as they are read, as data: the text, and the draft or the problem it becomes.
