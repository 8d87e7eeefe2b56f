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
	// Chroma across: three parts of the nearer sample, one of the farther.
	VMOVQ (DX), X0
	VMOVQ -2(DX), X1
	VMOVQ 2(DX), X2
	VPADDW X0, X0, X3
	VPADDW X0, X3, X3
	VPADDW X1, X3, X1
	VPADDW X2, X3, X2
	VPUNPCKLWD X2, X1, X0 // cb of eight pixels
	VMOVQ (R9), X4
	VMOVQ -2(R9), X1
	VMOVQ 2(R9), X2
	VPADDW X4, X4, X3
	VPADDW X4, X3, X3
	VPADDW X1, X3, X1
	VPADDW X2, X3, X2
	VPUNPCKLWD X2, X1, X1 // cr
	VPMOVSXWD X0, Y0
	VPMOVSXWD X1, Y1
	VPMOVZXBD (SI), Y2

	VPMULLD Y9, Y2, Y2
	VPADDD  Y8, Y2, Y2
	VPMULLD Y10, Y1, Y3
	VPADDD  Y2, Y3, Y3 // red
	VPMULLD Y12, Y1, Y1
	VPMULLD Y11, Y0, Y4
	VPSUBD  Y1, Y2, Y5
	VPSUBD  Y4, Y5, Y5 // green
	VPMULLD Y13, Y0, Y0
	VPADDD  Y2, Y0, Y0 // blue
	VPSRAD  $16, Y3, Y3
	VPSRAD  $16, Y5, Y5
	VPSRAD  $16, Y0, Y0
	VPMAXSD Y7, Y3, Y3
	VPMAXSD Y7, Y5, Y5
	VPMAXSD Y7, Y0, Y0
	VPMINSD Y15, Y3, Y3
	VPMINSD Y15, Y5, Y5
	VPMINSD Y15, Y0, Y0

	VPCMPEQD Y6, Y6, Y6
	VPGATHERDD Y6, (R8)(Y3*2), Y1
	VPCMPEQD Y6, Y6, Y6
	VPGATHERDD Y6, (R8)(Y5*2), Y2
	VPCMPEQD Y6, Y6, Y6
	VPGATHERDD Y6, (R8)(Y0*2), Y4
	VPSLLD   $16, Y2, Y2
	VPBLENDW $0xaa, Y2, Y1, Y1 // red and green of each pixel side by side

	VPSHUFB weave<>+0(SB), Y1, Y0
	VPSHUFB weave<>+32(SB), Y4, Y2
	VPOR    Y2, Y0, Y0
	VPSHUFB weave<>+64(SB), Y1, Y3
	VPSHUFB weave<>+96(SB), Y4, Y2
	VPOR    Y2, Y3, Y3
	VMOVDQU X0, (DI)
	VMOVQ   X3, 16(DI)
	VEXTRACTI128 $1, Y0, X0
	VEXTRACTI128 $1, Y3, X3
	VMOVDQU X0, 24(DI)
	VMOVQ   X3, 40(DI)

	ADDQ $48, DI
	ADDQ $8, SI
	ADDQ $8, DX
	ADDQ $8, R9
	DECQ CX
	JNZ  eight
	VZEROUPPER
	RET
