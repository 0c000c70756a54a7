package tiling

// columnLetters leave out I and O, which read as 1 and 0.
const columnLetters = "ABCDEFGHJKLMNPQRSTUVWXYZ"

// Letters returns the letters of column i, counted from 0: A … Z without I and O, then AA, AB …
func Letters(i int) string {
	var b [16]byte
	at := len(b)
	for i++; i > 0 && at > 0; i = (i - 1) / len(columnLetters) {
		at--
		b[at] = columnLetters[(i-1)%len(columnLetters)]
	}
	return string(b[at:])
}

// Letter returns one letter for i, counted round and round: A … Z without I and O.
func Letter(i int) string {
	i %= len(columnLetters)
	if i < 0 {
		i += len(columnLetters)
	}
	return columnLetters[i : i+1]
}
