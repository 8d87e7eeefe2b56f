#include "textflag.h"

DATA half<>+0(SB)/8, $0x80000000
GLOBL half<>(SB), RODATA|NOPTR, $8

DATA most<>+0(SB)/2, $8191
GLOBL most<>(SB), RODATA|NOPTR, $2

// SCALED takes eight sums to the upper halves of their products with the
// factors Y12 (even places) and Y13 (odd places), rounded; the bias Y11 is
// added first. Y14 is one half. Y10 is lost.
#define SCALED(r) \
	VPADDD   Y11, r, r \
	VPSRLQ   $32, r, Y10 \
	VPMULDQ  Y12, r, r \
	VPMULDQ  Y13, Y10, Y10 \
	VPADDQ   Y14, r, r \
	VPADDQ   Y14, Y10, Y10 \
	VPSRLQ   $32, r, r \
	VPBLENDD $0xAA, Y10, r, r

// TERM adds a pair of values, the same for all channels, times the weights Y8.
#define TERM(at, tmp, r) \
	VPBROADCASTD at, tmp \
	VPMADDWD     Y8, tmp, tmp \
	VPADDD       tmp, r, r

// TWO writes eight channels of two cells, held within Y9 and Y15; R9 is their
// distance.
#define TWO(a, b, xa) \
	VPACKSSDW    b, a, a \
	VPERMQ       $0xD8, a, a \
	VPMAXSW      Y9, a, a \
	VPMINSW      Y15, a, a \
	VMOVDQU      xa, (DI) \
	VEXTRACTI128 $1, a, (DI)(R9*1) \
	LEAQ         (DI)(R9*2), DI

// func eightAVX2(dst, src, weights *int16, bias, factor *int32, srcStep, dstStep, pairs, least int)
TEXT ·eightAVX2(SB), NOSPLIT, $0-72
	MOVQ dst+0(FP), DI
	MOVQ src+8(FP), SI
	MOVQ weights+16(FP), DX
	MOVQ srcStep+40(FP), R10
	MOVQ pairs+56(FP), CX
	LEAQ (R10)(R10*2), R11
	LEAQ (SI)(R11*1), R12 // the fourth cell

	VPXOR Y0, Y0, Y0
	VPXOR Y1, Y1, Y1
	VPXOR Y2, Y2, Y2
	VPXOR Y3, Y3, Y3
	VPXOR Y4, Y4, Y4
	VPXOR Y5, Y5, Y5
	VPXOR Y6, Y6, Y6
	VPXOR Y7, Y7, Y7

terms:
	VMOVDQU (DX), Y8
	TERM((SI), Y9, Y0)
	TERM((SI)(R10*1), Y10, Y1)
	TERM((SI)(R10*2), Y11, Y2)
	TERM((R12), Y12, Y3)
	TERM((SI)(R10*4), Y13, Y4)
	TERM((R12)(R10*2), Y14, Y5)
	TERM((R12)(R11*1), Y15, Y6)
	TERM((R12)(R10*4), Y9, Y7)
	ADDQ $4, SI
	ADDQ $4, R12
	ADDQ $32, DX
	DECQ CX
	JNZ  terms

	MOVQ bias+24(FP), AX
	MOVQ factor+32(FP), BX
	MOVQ dstStep+48(FP), R9
	VMOVDQU (AX), Y11
	VMOVDQU (BX), Y12
	VPSRLQ  $32, Y12, Y13
	MOVQ least+64(FP), AX
	VMOVQ AX, X9
	VPBROADCASTW X9, Y9
	VPBROADCASTQ half<>(SB), Y14
	VPBROADCASTW most<>(SB), Y15
	SCALED(Y0)
	SCALED(Y1)
	SCALED(Y2)
	SCALED(Y3)
	SCALED(Y4)
	SCALED(Y5)
	SCALED(Y6)
	SCALED(Y7)
	TWO(Y0, Y1, X0)
	TWO(Y2, Y3, X2)
	TWO(Y4, Y5, X4)
	TWO(Y6, Y7, X6)
	VZEROUPPER
	RET

// PAIR adds two columns of a row.
#define PAIR(first, second, at) \
	VMOVDQU    first, Y2 \
	VMOVDQU    second, Y3 \
	VPUNPCKLWD Y3, Y2, Y4 \
	VPUNPCKHWD Y3, Y2, Y5 \
	VPMADDWD   at(DX), Y4, Y4 \
	VPMADDWD   at+32(DX), Y5, Y5 \
	VPADDD     Y4, Y0, Y0 \
	VPADDD     Y5, Y1, Y1

// ROW adds a row of the patch, which begins at R8, and goes to the next. The
// weights of its last pair's second column are nothing.
#define ROW(at) \
	PAIR((R8), (R8)(R10*1), at) \
	PAIR((R8)(R10*2), (R8)(R12*1), at+64) \
	PAIR((R8)(R10*4), (R8)(R10*4), at+128) \
	ADDQ R11, R8

// func sixteenAVX2(dst, src, weights *int16, bias, factor *int32, n, step, line, least int)
TEXT ·sixteenAVX2(SB), NOSPLIT, $0-72
	MOVQ dst+0(FP), DI
	MOVQ src+8(FP), SI
	MOVQ weights+16(FP), DX
	MOVQ bias+24(FP), AX
	MOVQ factor+32(FP), BX
	MOVQ n+40(FP), CX
	MOVQ step+48(FP), R10
	MOVQ line+56(FP), R11
	LEAQ (R10)(R10*2), R12
	MOVQ least+64(FP), R8
	VMOVQ R8, X9
	VPBROADCASTW X9, Y9
	VPBROADCASTQ half<>(SB), Y14
	VPBROADCASTW most<>(SB), Y15

cell:
	VPXOR Y0, Y0, Y0
	VPXOR Y1, Y1, Y1
	MOVQ  SI, R8
	ROW(0)
	ROW(192)
	ROW(384)
	ROW(576)
	ROW(768)
	VMOVDQU (AX), Y11
	VMOVDQU (BX), Y12
	VPSRLQ  $32, Y12, Y13
	SCALED(Y0)
	VMOVDQU 32(AX), Y11
	VMOVDQU 32(BX), Y12
	VPSRLQ  $32, Y12, Y13
	SCALED(Y1)
	VPACKSSDW Y1, Y0, Y0
	VPMAXSW   Y9, Y0, Y0
	VPMINSW   Y15, Y0, Y0
	VMOVDQU   Y0, (DI)
	ADDQ R10, SI
	ADDQ R10, DI
	DECQ CX
	JNZ  cell
	VZEROUPPER
	RET
