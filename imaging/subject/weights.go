package subject

import (
	_ "embed"
	"encoding/binary"
	"errors"
	"sync"
)

// packed is what the packer of package subjecttrain wrote: "SFQ1", the number
// of layers (16 bits, little endian like all that follows) and for each layer
// the length of its name and the name, its kind, patch, stride, whether what is
// below nothing becomes nothing (a byte each), channels in and out (16 bits
// each), its weights (8 bits: out, in, row, column), biases and factors (32
// bits each).
//
//go:embed weights.bin
var packed []byte

var errPacked = errors.New("subject: the weights are not as packed")

// shipped is the net that comes with the program.
var shipped = sync.OnceValue(func() net {
	n, err := unpack(packed)
	if err != nil {
		panic(err) // the file is part of the program
	}
	return n
})

// unpack reads packed weights.
func unpack(b []byte) (n net, err error) {
	defer func() {
		if recover() != nil {
			n, err = nil, errPacked
		}
	}()
	if string(b[:4]) != "SFQ1" {
		return nil, errPacked
	}
	count := int(binary.LittleEndian.Uint16(b[4:]))
	b = b[6:]
	n = net{}
	for range count {
		var l *layer
		l, b = unpackLayer(b)
		n[l.name] = l
	}
	return n, nil
}

func unpackLayer(b []byte) (*layer, []byte) {
	l := &layer{name: string(b[1 : 1+b[0]])}
	b = b[1+b[0]:]
	l.kind, l.k, l.stride, l.relu = b[0], int(b[1]), int(b[2]), b[3] != 0
	in, out := int(binary.LittleEndian.Uint16(b[4:])), int(binary.LittleEndian.Uint16(b[6:]))
	b = b[8:]
	l.in, l.out = stored(in), stored(out)
	l.bias, l.factor = make([]int32, l.out), make([]int32, l.out)
	size := in * l.k * l.k * out
	if l.kind == 'd' {
		size = l.k * l.k * out
		l.layEach(b[:size], out)
	} else {
		l.layEvery(b[:size], in, out)
	}
	b = b[size:]
	for i := range out {
		l.bias[l.place(i)] = int32(binary.LittleEndian.Uint32(b[4*i:]))
		l.factor[l.place(i)] = int32(binary.LittleEndian.Uint32(b[4*(out+i):]))
	}
	return l, b[8*out:]
}

// stored is how many channels a grid has for n of the net's.
func stored(n int) int {
	if n == 3 {
		return 4
	}
	return (n + 7) / 8 * 8
}

// place is where a channel's bias and factor stand.
func (l *layer) place(c int) int {
	if l.kind != 'd' {
		return c
	}
	for i, ch := range channel16 {
		if ch == c%16 {
			return c/16*16 + i
		}
	}
	return c
}

func (l *layer) layEvery(b []byte, in, out int) {
	size := l.k * l.k * l.in
	l.weights = make([]int16, size*l.out)
	for o := range out {
		for i := range in {
			for t := range l.k * l.k {
				k := t*l.in + i
				l.weights[o/8*8*size+k/2*16+o%8*2+k%2] = int16(int8(b[(o*in+i)*l.k*l.k+t]))
			}
		}
	}
}

func (l *layer) layEach(b []byte, out int) {
	l.weights = make([]int16, out/16*l.k*pairsARow*32)
	for o := range out {
		for row := range l.k {
			for col := range l.k {
				pair := (o/16*l.k+row)*pairsARow + col/2
				l.weights[pair*32+l.place(o)%16*2+col%2] = int16(int8(b[(o*l.k+row)*l.k+col]))
			}
		}
	}
}
