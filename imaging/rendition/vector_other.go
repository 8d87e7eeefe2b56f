//go:build !amd64

package rendition

func sharpenVector(dst, a, b, c []uint16, k int32) int { return 0 }

func narrowVector(dst []uint8, src []uint16) int { return 0 }

func codeVector(luma, row []uint16, sum *sums, srgb []uint16) int { return 0 }
