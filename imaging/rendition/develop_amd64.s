#include "textflag.h"

// Shuffles that take one colour of four interleaved pixels to 32 bits each: what
// the first eight values hold of it, then what the last eight hold; for red,
// green and blue.
DATA part<>+0(SB)/8, $0x8080070680800100
DATA part<>+8(SB)/8, $0x8080808080800d0c
DATA part<>+16(SB)/8, $0x8080070680800100
DATA part<>+24(SB)/8, $0x8080808080800d0c
DATA part<>+32(SB)/8, $0x8080808080808080
DATA part<>+40(SB)/8, $0x80800b0a80808080
DATA part<>+48(SB)/8, $0x8080808080808080
DATA part<>+56(SB)/8, $0x80800b0a80808080
DATA part<>+64(SB)/8, $0x8080090880800302
DATA part<>+72(SB)/8, $0x8080808080800f0e
DATA part<>+80(SB)/8, $0x8080090880800302
DATA part<>+88(SB)/8, $0x8080808080800f0e
DATA part<>+96(SB)/8, $0x8080808080808080
DATA part<>+104(SB)/8, $0x80800d0c80808080
DATA part<>+112(SB)/8, $0x8080808080808080
DATA part<>+120(SB)/8, $0x80800d0c80808080
DATA part<>+128(SB)/8, $0x80800b0a80800504
DATA part<>+136(SB)/8, $0x8080808080808080
DATA part<>+144(SB)/8, $0x80800b0a80800504
DATA part<>+152(SB)/8, $0x8080808080808080
DATA part<>+160(SB)/8, $0x8080808080808080
DATA part<>+168(SB)/8, $0x80800f0e80800908
DATA part<>+176(SB)/8, $0x8080808080808080
DATA part<>+184(SB)/8, $0x80800f0e80800908
GLOBL part<>(SB), RODATA|NOPTR, $192

// COLOUR looks one colour of eight pixels up: y = table[pixels].
#define COLOUR(at, table, y, t, i) \
	VPSHUFB part<>+at(SB), Y8, i \
	VPSHUFB part<>+(at+32)(SB), Y9, t \
	VPOR t, i, i \
	VPCMPEQD t, t, t \
	VPGATHERDD t, (table)(i*2), y \
	VPAND Y15, y, y

// PAIRS adds y, two by two, to the sums at s.
#define PAIRS(y, t, x, s) \
	VPHADDD y, y, t \
	VPERMQ $0x08, t, t \
	VPADDD (s), x, x \
	VMOVDQU x, (s) \
	ADDQ $16, s

// func codeAVX2(luma, row, tr, tg, tb *uint16, sr, sg, sb *uint32, blocks int)
TEXT ·codeAVX2(SB), NOSPLIT, $0-72
	MOVQ luma+0(FP), DI
	MOVQ row+8(FP), SI
	MOVQ tr+16(FP), R8
	MOVQ tg+24(FP), R9
	MOVQ tb+32(FP), R10
	MOVQ sr+40(FP), R11
	MOVQ sg+48(FP), R12
	MOVQ sb+56(FP), R13
	MOVQ blocks+64(FP), CX
	VPCMPEQD Y15, Y15, Y15
	VPSRLD $16, Y15, Y15 // the low half of each
	MOVL $19595, AX      // BT.601, as in develop.go
	VMOVD AX, X14
	VPBROADCASTD X14, Y14
	MOVL $38470, AX
	VMOVD AX, X13
	VPBROADCASTD X13, Y13
	MOVL $7471, AX
	VMOVD AX, X12
	VPBROADCASTD X12, Y12
	MOVL $32768, AX
	VMOVD AX, X11
	VPBROADCASTD X11, Y11

code8:
	VMOVDQU (SI), X8
	VINSERTI128 $1, 24(SI), Y8, Y8
	VMOVDQU 8(SI), X9
	VINSERTI128 $1, 32(SI), Y9, Y9
	COLOUR(0, R8, Y0, Y6, Y7)
	COLOUR(64, R9, Y1, Y6, Y7)
	COLOUR(128, R10, Y2, Y6, Y7)
	VPMULLD Y14, Y0, Y3
	VPMULLD Y13, Y1, Y4
	VPMULLD Y12, Y2, Y5
	VPADDD Y4, Y3, Y3
	VPADDD Y11, Y5, Y5
	VPADDD Y5, Y3, Y3
	VPSRLD $16, Y3, Y3
	VEXTRACTI128 $1, Y3, X4
	VPACKUSDW X4, X3, X3
	VMOVDQU X3, (DI)
	PAIRS(Y0, Y6, X6, R11)
	PAIRS(Y1, Y6, X6, R12)
	PAIRS(Y2, Y6, X6, R13)

	ADDQ $48, SI
	ADDQ $16, DI
	DECQ CX
	JNZ  code8
	VZEROUPPER
	RET
