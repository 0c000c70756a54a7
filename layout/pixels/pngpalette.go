package pixels

// colours reads the list of colours; pictures that do not need one may carry one as advice.
func (f *pngFile) colours(s *source, c chunk) error {
	n := int(c.length) / 3
	if c.length%3 != 0 || n == 0 || n > 256 || f.kind == pngPalette && n > 1<<f.depth {
		return pngError(c.at-8, "the list of colours (PLTE) has %d bytes, which does not fit", c.length).hint(saveAgain)
	}
	if f.kind == pngGrey || f.kind == pngGreyAlpha {
		return pngError(c.at-8, "a grey picture may not have a list of colours (PLTE)").hint(saveAgain)
	}
	b, err := c.contents(s)
	if err != nil || f.kind != pngPalette {
		return err
	}
	if f.palette != nil {
		return pngError(c.at-8, "a second list of colours (PLTE)").hint(saveAgain)
	}
	f.palette = make([]byte, 0, 4*n)
	for i := range n {
		f.palette = append(f.palette, b[3*i], b[3*i+1], b[3*i+2], 255)
	}
	return nil
}

// transparency reads the chunk tRNS: alpha for the first entries of a palette, or the one colour that is see-through.
func (f *pngFile) transparency(s *source, c chunk) error {
	wrong := pngError(c.at-8, "the chunk for see-through colours (tRNS) has %d bytes, which does not fit", c.length).hint(saveAgain)
	switch f.kind {
	case pngPalette:
		if f.palette == nil {
			return pngError(c.at-8, "the chunk for see-through colours (tRNS) stands before the list of colours").hint(saveAgain)
		}
		if c.length > int64(len(f.palette)/4) {
			return wrong
		}
	case pngGrey, pngTrue:
		if c.length != int64(2*f.channels()) {
			return wrong
		}
	default:
		return pngError(c.at-8, "a picture with an alpha channel may not have a chunk for see-through colours (tRNS)").hint(saveAgain)
	}
	b, err := c.contents(s)
	if err != nil {
		return err
	}
	f.seeThrough = true
	if f.kind != pngPalette {
		f.key = b
		return nil
	}
	for i, a := range b {
		f.palette[4*i+3] = a
	}
	return nil
}
