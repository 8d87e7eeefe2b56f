#include "textflag.h"

// Shuffles that weave four pixels, red and green in one register and blue in
// another, into r g b order: the first eight values, then the last four.
DATA weave<>+0(SB)/8, $0x0504808003020100
DATA weave<>+8(SB)/8, $0x0b0a090880800706
DATA weave<>+16(SB)/8, $0x0504808003020100
DATA weave<>+24(SB)/8, $0x0b0a090880800706
DATA weave<>+32(SB)/8, $0x8080010080808080
DATA weave<>+40(SB)/8, $0x8080808005048080
DATA weave<>+48(SB)/8, $0x8080010080808080
DATA weave<>+56(SB)/8, $0x8080808005048080
DATA weave<>+64(SB)/8, $0x80800f0e0d0c8080
DATA weave<>+72(SB)/8, $0x8080808080808080
DATA weave<>+80(SB)/8, $0x80800f0e0d0c8080
DATA weave<>+88(SB)/8, $0x8080808080808080
DATA weave<>+96(SB)/8, $0x0d0c808080800908
DATA weave<>+104(SB)/8, $0x8080808080808080
DATA weave<>+112(SB)/8, $0x0d0c808080800908
DATA weave<>+120(SB)/8, $0x8080808080808080
GLOBL weave<>(SB), RODATA|NOPTR, $128

// LEVELS sets Y3, Y5 and Y0 to the red, green and blue of the next eight pixels,
// in sixteenths of a level, 0 to 4080. Chroma across is three parts of the nearer
// sample and one of the farther.
#define LEVELS \
	VMOVQ (DX), X0 \
	VMOVQ -2(DX), X1 \
	VMOVQ 2(DX), X2 \
	VPADDW X0, X0, X3 \
	VPADDW X0, X3, X3 \
	VPADDW X1, X3, X1 \
	VPADDW X2, X3, X2 \
	VPUNPCKLWD X2, X1, X0 \
	VMOVQ (R9), X4 \
	VMOVQ -2(R9), X1 \
	VMOVQ 2(R9), X2 \
	VPADDW X4, X4, X3 \
	VPADDW X4, X3, X3 \
	VPADDW X1, X3, X1 \
	VPADDW X2, X3, X2 \
	VPUNPCKLWD X2, X1, X1 \
	VPMOVSXWD X0, Y0 \
	VPMOVSXWD X1, Y1 \
	VPMOVZXBD (SI), Y2 \
	VPMULLD Y9, Y2, Y2 \
	VPADDD  Y8, Y2, Y2 \
	VPMULLD Y10, Y1, Y3 \
	VPADDD  Y2, Y3, Y3 \
	VPMULLD Y12, Y1, Y1 \
	VPMULLD Y11, Y0, Y4 \
	VPSUBD  Y1, Y2, Y5 \
	VPSUBD  Y4, Y5, Y5 \
	VPMULLD Y13, Y0, Y0 \
	VPADDD  Y2, Y0, Y0 \
	VPSRAD  $16, Y3, Y3 \
	VPSRAD  $16, Y5, Y5 \
	VPSRAD  $16, Y0, Y0 \
	VPMAXSD Y7, Y3, Y3 \
	VPMAXSD Y7, Y5, Y5 \
	VPMAXSD Y7, Y0, Y0 \
	VPMINSD Y15, Y3, Y3 \
	VPMINSD Y15, Y5, Y5 \
	VPMINSD Y15, Y0, Y0

// WEAVE writes the eight pixels of Y1 (red and green) and Y4 (blue).
#define WEAVE \
	VPSHUFB weave<>+0(SB), Y1, Y0 \
	VPSHUFB weave<>+32(SB), Y4, Y2 \
	VPOR    Y2, Y0, Y0 \
	VPSHUFB weave<>+64(SB), Y1, Y3 \
	VPSHUFB weave<>+96(SB), Y4, Y2 \
	VPOR    Y2, Y3, Y3 \
	VMOVDQU X0, (DI) \
	VMOVQ   X3, 16(DI) \
	VEXTRACTI128 $1, Y0, X0 \
	VEXTRACTI128 $1, Y3, X3 \
	VMOVDQU X0, 24(DI) \
	VMOVQ   X3, 40(DI) \
	ADDQ $48, DI \
	ADDQ $8, SI \
	ADDQ $8, DX \
	ADDQ $8, R9

// func blendChroma(dst *int16, near, far *uint8, blocks int)
TEXT ·blendChroma(SB), NOSPLIT, $0-32
	MOVQ dst+0(FP), DI
	MOVQ near+8(FP), SI
	MOVQ far+16(FP), DX
	MOVQ blocks+24(FP), CX
	VPCMPEQW Y3, Y3, Y3
	VPSLLW   $9, Y3, Y3 // -512

chroma:
	VPMOVZXBW (SI), Y0
	VPMOVZXBW (DX), Y1
	VPADDW Y0, Y0, Y2
	VPADDW Y0, Y2, Y2
	VPADDW Y1, Y2, Y2
	VPADDW Y3, Y2, Y2
	VMOVDQU Y2, (DI)
	ADDQ $16, SI
	ADDQ $16, DX
	ADDQ $32, DI
	DECQ CX
	JNZ  chroma
	VZEROUPPER
	RET

// func linearRow(dst *uint16, luma *uint8, cb, cr *int16, curve *uint16, k *[6]int32, blocks int)
TEXT ·linearRow(SB), NOSPLIT, $0-56
	MOVQ dst+0(FP), DI
	MOVQ luma+8(FP), SI
	MOVQ cb+16(FP), DX
	MOVQ cr+24(FP), R9
	MOVQ curve+32(FP), R8
	MOVQ k+40(FP), AX
	MOVQ blocks+48(FP), CX
	VPXOR Y7, Y7, Y7
	VPBROADCASTD (AX), Y8    // what every luma sum starts from
	VPBROADCASTD 4(AX), Y9   // luma
	VPBROADCASTD 8(AX), Y10  // red by cr
	VPBROADCASTD 12(AX), Y11 // green by cb
	VPBROADCASTD 16(AX), Y12 // green by cr
	VPBROADCASTD 20(AX), Y13 // blue by cb
	MOVL $4080, AX
	VMOVD AX, X15
	VPBROADCASTD X15, Y15

eight:
	LEVELS
	VPCMPEQD Y6, Y6, Y6
	VPGATHERDD Y6, (R8)(Y3*2), Y1
	VPCMPEQD Y6, Y6, Y6
	VPGATHERDD Y6, (R8)(Y5*2), Y2
	VPCMPEQD Y6, Y6, Y6
	VPGATHERDD Y6, (R8)(Y0*2), Y4
	VPSLLD   $16, Y2, Y2
	VPBLENDW $0xaa, Y2, Y1, Y1 // red and green of each pixel side by side

	WEAVE
	DECQ CX
	JNZ  eight
	VZEROUPPER
	RET

// BIAS lets a 64-bit sum, which may be below zero, be shifted as if unsigned, and
// rounds it: 1<<40 + 1<<15. Shifted by 16 it is 1<<24.
DATA bias<>+0(SB)/8, $0x0000010000008000
DATA bias<>+8(SB)/8, $0x0000010000008000
DATA bias<>+16(SB)/8, $0x0000010000008000
DATA bias<>+24(SB)/8, $0x0000010000008000
DATA bias<>+32(SB)/8, $0x0100000001000000
DATA bias<>+40(SB)/8, $0x0100000001000000
DATA bias<>+48(SB)/8, $0x0100000001000000
DATA bias<>+56(SB)/8, $0x0100000001000000
DATA bias<>+64(SB)/8, $0x0000ffff0000ffff
DATA bias<>+72(SB)/8, $0x0000ffff0000ffff
DATA bias<>+80(SB)/8, $0x0000ffff0000ffff
DATA bias<>+88(SB)/8, $0x0000ffff0000ffff
GLOBL bias<>(SB), RODATA|NOPTR, $96

// MIX sets y to one row of the matrix, at BX, of red Y1, green Y2 and blue Y4: the
// even pixels first, then the odd ones.
#define MIX(at, y) \
	VPMULDQ (at+0)(BX), Y1, Y3 \
	VPMULDQ (at+32)(BX), Y2, Y5 \
	VPADDQ Y5, Y3, Y3 \
	VPMULDQ (at+64)(BX), Y4, Y5 \
	VPADDQ Y5, Y3, Y3 \
	VPADDQ bias<>+0(SB), Y3, Y3 \
	VPSRLQ $16, Y3, Y3 \
	VPSRLQ $32, Y1, Y5 \
	VPMULDQ (at+0)(BX), Y5, Y0 \
	VPSRLQ $32, Y2, Y5 \
	VPMULDQ (at+32)(BX), Y5, Y5 \
	VPADDQ Y5, Y0, Y0 \
	VPSRLQ $32, Y4, Y5 \
	VPMULDQ (at+64)(BX), Y5, Y5 \
	VPADDQ Y5, Y0, Y0 \
	VPADDQ bias<>+0(SB), Y0, Y0 \
	VPSRLQ $16, Y0, Y0 \
	VPSLLQ $32, Y0, Y0 \
	VPBLENDD $0xaa, Y0, Y3, y \
	VPSUBD bias<>+32(SB), y, y \
	VPMAXSD Y7, y, y \
	VPMINSD bias<>+64(SB), y, y

// func mixedRow(dst *uint16, luma *uint8, cb, cr *int16, finer *int32, k *[6]int32, q *[36]int64, blocks int)
TEXT ·mixedRow(SB), NOSPLIT, $0-64
	MOVQ dst+0(FP), DI
	MOVQ luma+8(FP), SI
	MOVQ cb+16(FP), DX
	MOVQ cr+24(FP), R9
	MOVQ finer+32(FP), R8
	MOVQ k+40(FP), AX
	MOVQ q+48(FP), BX
	MOVQ blocks+56(FP), CX
	VPXOR Y7, Y7, Y7
	VPBROADCASTD (AX), Y8
	VPBROADCASTD 4(AX), Y9
	VPBROADCASTD 8(AX), Y10
	VPBROADCASTD 12(AX), Y11
	VPBROADCASTD 16(AX), Y12
	VPBROADCASTD 20(AX), Y13
	MOVL $4080, AX
	VMOVD AX, X15
	VPBROADCASTD X15, Y15

mixed:
	LEVELS
	VPCMPEQD Y6, Y6, Y6
	VPGATHERDD Y6, (R8)(Y3*4), Y1
	VPCMPEQD Y6, Y6, Y6
	VPGATHERDD Y6, (R8)(Y5*4), Y2
	VPCMPEQD Y6, Y6, Y6
	VPGATHERDD Y6, (R8)(Y0*4), Y4
	MIX(0, Y6)
	MIX(96, Y14)
	VPSLLD   $16, Y14, Y14
	VPBLENDW $0xaa, Y14, Y6, Y14
	MIX(192, Y6)
	VMOVDQA Y14, Y1
	VMOVDQA Y6, Y4
	WEAVE
	DECQ CX
	JNZ  mixed
	VZEROUPPER
	RET
