package pixels

import "image"

// Orientation is how a stored picture lies to the upright one: the number of the tag Orientation in Exif 2.3 and
// TIFF 6.0, 1 to 8.
type Orientation uint8

const (
	Upright          Orientation = iota + 1 // as stored
	Mirrored                                // left and right changed
	HalfTurn                                // upside down
	MirroredHalfTurn                        // top and bottom changed
	MirroredLeft                            // mirrored, then lying; see String
	TurnRight                               // a quarter turn clockwise makes it upright
	MirroredRight                           // mirrored, then lying the other way
	TurnLeft                                // a quarter turn anticlockwise makes it upright
)

// String says in words what makes the stored picture upright.
func (o Orientation) String() string {
	switch o {
	case Mirrored:
		return "mirrored left to right to be upright"
	case HalfTurn:
		return "turned by half a turn to be upright"
	case MirroredHalfTurn:
		return "mirrored top to bottom to be upright"
	case MirroredLeft:
		return "mirrored left to right and turned a quarter anticlockwise to be upright"
	case TurnRight:
		return "turned a quarter clockwise to be upright"
	case MirroredRight:
		return "mirrored left to right and turned a quarter clockwise to be upright"
	case TurnLeft:
		return "turned a quarter anticlockwise to be upright"
	}
	return "upright as stored"
}

// Lying reports whether width and height change places.
func (o Orientation) Lying() bool { return o >= MirroredLeft && o <= TurnLeft }

// Size is the upright size of a stored picture of width × height.
func (o Orientation) Size(width, height int) (int, int) {
	if o.Lying() {
		return height, width
	}
	return width, height
}

// Matrix carries stored places to upright ones, both with y down from the top left corner of the picture, for a
// stored picture of width × height (pixels, or any other unit): x' = m[0]·x + m[2]·y + m[4], y' = m[1]·x + m[3]·y +
// m[5]. The corners of the stored picture land on the corners of the upright one. A value that is no orientation is
// taken as Upright.
func (o Orientation) Matrix(width, height float64) [6]float64 {
	switch o {
	case Mirrored:
		return [6]float64{-1, 0, 0, 1, width, 0}
	case HalfTurn:
		return [6]float64{-1, 0, 0, -1, width, height}
	case MirroredHalfTurn:
		return [6]float64{1, 0, 0, -1, 0, height}
	case MirroredLeft:
		return [6]float64{0, 1, 1, 0, 0, 0}
	case TurnRight:
		return [6]float64{0, 1, -1, 0, height, 0}
	case MirroredRight:
		return [6]float64{0, -1, -1, 0, height, width}
	case TurnLeft:
		return [6]float64{0, -1, 1, 0, 0, width}
	}
	return [6]float64{1, 0, 0, 1, 0, 0}
}

// Stored is the rectangle of the stored picture of width × height pixels that shows as r once the picture is upright.
func (o Orientation) Stored(r image.Rectangle, width, height int) image.Rectangle {
	m := o.Matrix(float64(width), float64(height))
	back := func(p image.Point) image.Point {
		// The linear part only permutes and mirrors the axes, so its transpose undoes it.
		x, y := p.X-int(m[4]), p.Y-int(m[5])
		return image.Pt(int(m[0])*x+int(m[1])*y, int(m[2])*x+int(m[3])*y)
	}
	a, b := back(r.Min), back(r.Max)
	return image.Rect(a.X, a.Y, b.X, b.Y)
}
