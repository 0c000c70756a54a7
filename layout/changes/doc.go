// Package changes compares two resolved sets, an old one and a new one, and says what has to be done again: which elements
// changed and what was held, what is lifted from the floor and laid on it, which blocks are moved or built, which card pieces are
// remade, which boards are recut and what is hung again overhead.
//
// Things are compared by what they are and where they stand, not by their names or their order in the file, so that a change
// that alters nothing made asks for nothing.
package changes
