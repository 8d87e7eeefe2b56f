#include "textflag.h"

// The samples are unsigned, the multiplication signed: every sample is taken
// less 32768. Since the weights of a sum add up to 1<<14, the sum is less by
// 32768<<14, which the last step undoes.

DATA pairs<>+0(SB)/8, $0x0908030207060100
DATA pairs<>+8(SB)/8, $0x808080800b0a0504
DATA pairs<>+16(SB)/8, $0x0908030207060100
DATA pairs<>+24(SB)/8, $0x808080800b0a0504
GLOBL pairs<>(SB), RODATA|NOPTR, $32

// func mixAVX2(dst *uint16, rows **uint16, weights *int16, blocks, pairs int)
TEXT ·mixAVX2(SB), NOSPLIT, $0-40
	MOVQ dst+0(FP), DI
	MOVQ rows+8(FP), SI
	MOVQ weights+16(FP), DX
	MOVQ blocks+24(FP), CX
	MOVQ pairs+32(FP), R8
	XORQ AX, AX
	VPCMPEQW Y15, Y15, Y15
	VPSLLW   $15, Y15, Y15   // 0x8000 in every word
	VPCMPEQD Y14, Y14, Y14
	VPSRLD   $31, Y14, Y14
	VPSLLD   $13, Y14, Y14   // half a unit

block:
	VMOVDQA Y14, Y0
	VMOVDQA Y14, Y1
	MOVQ SI, R9
	MOVQ DX, R10
	MOVQ R8, R11

pair:
	MOVQ (R9), R12
	MOVQ 8(R9), R13
	VPBROADCASTD (R10), Y4
	VPXOR (R12)(AX*1), Y15, Y2
	VPXOR (R13)(AX*1), Y15, Y3
	VPUNPCKLWD Y3, Y2, Y5
	VPUNPCKHWD Y3, Y2, Y6
	VPMADDWD Y4, Y5, Y5
	VPMADDWD Y4, Y6, Y6
	VPADDD Y5, Y0, Y0
	VPADDD Y6, Y1, Y1
	ADDQ $16, R9
	ADDQ $4, R10
	DECQ R11
	JNZ  pair

	VPSRAD $14, Y0, Y0
	VPSRAD $14, Y1, Y1
	VPACKSSDW Y1, Y0, Y0
	VPXOR Y15, Y0, Y0
	VMOVDQU Y0, (DI)(AX*1)
	ADDQ $32, AX
	DECQ CX
	JNZ  block
	VZEROUPPER
	RET

// func shrinkAVX2(dst, src *uint16, first *int32, lanes *int32, twos, pairs int)
TEXT ·shrinkAVX2(SB), NOSPLIT, $0-48
	MOVQ dst+0(FP), DI
	MOVQ src+8(FP), SI
	MOVQ first+16(FP), DX
	MOVQ lanes+24(FP), R8
	MOVQ twos+32(FP), CX
	MOVQ pairs+40(FP), R9
	VPCMPEQW Y15, Y15, Y15
	VPSLLW   $15, Y15, Y15
	VPCMPEQD Y14, Y14, Y14
	VPSRLD   $31, Y14, Y14
	VPSLLD   $13, Y14, Y14
	VMOVDQU  pairs<>(SB), Y13 // r0 r1 g0 g1 b0 b1 of two pixels

two:
	MOVLQSX (DX), R10
	MOVLQSX 4(DX), R11
	LEAQ (R10)(R10*2), R10
	LEAQ (R11)(R11*2), R11
	LEAQ (SI)(R10*2), R10
	LEAQ (SI)(R11*2), R11
	VMOVDQA Y14, Y0
	MOVQ R9, R12

tap:
	VMOVDQU (R10), X1
	VINSERTI128 $1, (R11), Y1, Y1
	VPXOR Y15, Y1, Y1
	VPSHUFB Y13, Y1, Y1
	VPMADDWD (R8), Y1, Y1
	VPADDD Y1, Y0, Y0
	ADDQ $12, R10
	ADDQ $12, R11
	ADDQ $32, R8
	DECQ R12
	JNZ  tap

	VPSRAD $14, Y0, Y0
	VPACKSSDW Y0, Y0, Y0
	VPXOR Y15, Y0, Y0
	VEXTRACTI128 $1, Y0, X1
	VMOVQ X0, (DI)
	VMOVQ X1, 6(DI)
	ADDQ $12, DI
	ADDQ $8, DX
	DECQ CX
	JNZ  two
	VZEROUPPER
	RET

// func sumAVX2(sum *uint64, row *uint16, edge *int, n int)
TEXT ·sumAVX2(SB), NOSPLIT, $0-32
	MOVQ sum+0(FP), DI
	MOVQ row+8(FP), SI
	MOVQ edge+16(FP), DX
	MOVQ n+24(FP), CX
	MOVQ (DX), AX
	LEAQ (AX)(AX*2), R8
	LEAQ (SI)(R8*2), R8 // the first pixel

sums:
	ADDQ $8, DX
	MOVQ (DX), BX
	MOVQ BX, R9
	SUBQ AX, R9 // pixels of the block
	MOVQ BX, AX
	VPXOR X0, X0, X0
	VPXOR X1, X1, X1
	SUBQ $2, R9
	JLT  odd

two:
	VPMOVZXWD (R8), X2
	VPMOVZXWD 6(R8), X3
	VPADDD X2, X0, X0
	VPADDD X3, X1, X1
	ADDQ $12, R8
	SUBQ $2, R9
	JGE  two

odd:
	CMPQ R9, $-1
	JNE  summed
	VPMOVZXWD (R8), X2
	VPADDD X2, X0, X0
	ADDQ $6, R8

summed:
	VPADDD X1, X0, X0
	VPMOVZXDQ X0, Y0
	VPADDQ (DI), Y0, Y0
	VMOVDQU Y0, (DI)
	ADDQ $32, DI
	DECQ CX
	JNZ  sums
	VZEROUPPER
	RET
