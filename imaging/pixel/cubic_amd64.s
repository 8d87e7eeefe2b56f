#include "textflag.h"

DATA two<>+0(SB)/8, $0x0908030207060100
DATA two<>+8(SB)/8, $0x808080800b0a0504
DATA two<>+16(SB)/8, $0x0908030207060100
DATA two<>+24(SB)/8, $0x808080800b0a0504
GLOBL two<>(SB), RODATA|NOPTR, $32

// Words of two packed pixels, side by side: r0 r1 g0 g1 b0 b1.
DATA both<>+0(SB)/8, $0x0b0a030209080100
DATA both<>+8(SB)/8, $0x808080800d0c0504
GLOBL both<>(SB), RODATA|NOPTR, $16

// ROW filters one row of four pixels across: X(dst) = sums of 32 bits.
#define ROW(at, yd, xd) \
	VMOVDQU (at), xd \
	VINSERTI128 $1, 12(at), yd, yd \
	VPXOR Y15, yd, yd \
	VPSHUFB Y13, yd, yd \
	VPMADDWD Y12, yd, yd \
	VEXTRACTI128 $1, yd, X11 \
	VPADDD X11, xd, xd \
	VPADDD X14, xd, xd \
	VPSRAD $14, xd, xd

// func cubicAVX2(dst, pix *uint16, spots *spot, lanes *int32, stride, n int)
TEXT ·cubicAVX2(SB), NOSPLIT, $0-48
	MOVQ dst+0(FP), DI
	MOVQ pix+8(FP), SI
	MOVQ spots+16(FP), DX
	MOVQ lanes+24(FP), R8
	MOVQ stride+32(FP), R9
	MOVQ n+40(FP), CX
	VPCMPEQW Y15, Y15, Y15
	VPSLLW   $15, Y15, Y15
	VPCMPEQD Y14, Y14, Y14
	VPSRLD   $31, Y14, Y14
	VPSLLD   $13, Y14, Y14
	VMOVDQU  two<>(SB), Y13

spot:
	MOVLQSX (DX), R10
	MOVLQSX 4(DX), R11
	MOVLQSX 8(DX), R12
	MOVLQSX 12(DX), R13
	DECQ R10
	DECQ R11
	IMULQ R9, R11
	LEAQ (R10)(R10*2), R10
	LEAQ (R11)(R10*2), R10
	ADDQ SI, R10             // first column of the first row
	SHLQ $5, R12
	SHLQ $5, R13
	VMOVDQU (R8)(R12*1), Y12 // weights across
	LEAQ (R10)(R9*1), R11
	LEAQ (R11)(R9*1), R12
	LEAQ (R12)(R9*1), AX

	ROW(R10, Y0, X0)
	ROW(R11, Y1, X1)
	ROW(R12, Y2, X2)
	ROW(AX, Y3, X3)
	VPACKSSDW X1, X0, X0
	VPACKSSDW X3, X2, X2
	VPSHUFB both<>(SB), X0, X0
	VPSHUFB both<>(SB), X2, X2
	VPMADDWD (R8)(R13*1), X0, X0
	VPMADDWD 16(R8)(R13*1), X2, X2
	VPADDD X2, X0, X0
	VPADDD X14, X0, X0
	VPSRAD $14, X0, X0
	VPACKSSDW X0, X0, X0

	// Held within the four nearest.
	VMOVQ 6(R11), X4
	VMOVQ 12(R11), X5
	VMOVQ 6(R12), X6
	VMOVQ 12(R12), X7
	VPMINUW X5, X4, X8
	VPMAXUW X5, X4, X9
	VPMINUW X7, X6, X4
	VPMAXUW X7, X6, X5
	VPMINUW X4, X8, X8
	VPMAXUW X5, X9, X9
	VPXOR X15, X8, X8
	VPXOR X15, X9, X9
	VPMAXSW X8, X0, X0
	VPMINSW X9, X0, X0
	VPXOR X15, X0, X0
	VMOVQ X0, (DI)

	ADDQ $6, DI
	ADDQ $16, DX
	DECQ CX
	JNZ  spot
	VZEROUPPER
	RET
