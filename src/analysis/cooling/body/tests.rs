//! Published figures, exact solutions, and what must be true of every body.
