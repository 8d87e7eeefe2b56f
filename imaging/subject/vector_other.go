//go:build !amd64

package subject

func (l *layer) eight(dst, src []int16, size int) { l.eightGo(dst, src, size) }

func (l *layer) sixteen(dst, src []int16, c, n, width int) { l.sixteenGo(dst, src, c, n, width) }
