//go:build !amd64

package pixel

func mixRows(dst []uint16, rows [][]uint16, weight []int16, at int) {
	mixRowsGo(dst, rows, weight, at)
}

func shrinkRow(dst, src []uint16, f *filter) { shrinkRowGo(dst, src, f, 0) }

func (f *filter) setLanes() {}

func addBlocks(sum []uint64, row []uint16, edge []int) { addBlocksGo(sum, row, edge) }
