#include "textflag.h"

// Shuffles that take the red, green and blue of four pixels out of 24 bytes, each
// into 32 bits: from the first 16 bytes, then from the last 16.
DATA apart<>+0(SB)/8, $0x8080070680800100
DATA apart<>+8(SB)/8, $0x8080808080800d0c
DATA apart<>+16(SB)/8, $0x8080070680800100
DATA apart<>+24(SB)/8, $0x8080808080800d0c
DATA apart<>+32(SB)/8, $0x8080808080808080
DATA apart<>+40(SB)/8, $0x80800b0a80808080
DATA apart<>+48(SB)/8, $0x8080808080808080
DATA apart<>+56(SB)/8, $0x80800b0a80808080
DATA apart<>+64(SB)/8, $0x8080090880800302
DATA apart<>+72(SB)/8, $0x8080808080800f0e
DATA apart<>+80(SB)/8, $0x8080090880800302
DATA apart<>+88(SB)/8, $0x8080808080800f0e
DATA apart<>+96(SB)/8, $0x8080808080808080
DATA apart<>+104(SB)/8, $0x80800d0c80808080
DATA apart<>+112(SB)/8, $0x8080808080808080
DATA apart<>+120(SB)/8, $0x80800d0c80808080
DATA apart<>+128(SB)/8, $0x80800b0a80800504
DATA apart<>+136(SB)/8, $0x8080808080808080
DATA apart<>+144(SB)/8, $0x80800b0a80800504
DATA apart<>+152(SB)/8, $0x8080808080808080
DATA apart<>+160(SB)/8, $0x8080808080808080
DATA apart<>+168(SB)/8, $0x80800f0e80800908
DATA apart<>+176(SB)/8, $0x8080808080808080
DATA apart<>+184(SB)/8, $0x80800f0e80800908
GLOBL apart<>(SB), RODATA|NOPTR, $192

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

// Halves of a last place: of 24 and of 32 bits; full scale and a byte of ones.
DATA whole<>+0(SB)/8, $0x0000000000800000
DATA whole<>+8(SB)/8, $0x0000000000800000
DATA whole<>+16(SB)/8, $0x0000000000800000
DATA whole<>+24(SB)/8, $0x0000000000800000
DATA whole<>+32(SB)/8, $0x0000000080000000
DATA whole<>+40(SB)/8, $0x0000000080000000
DATA whole<>+48(SB)/8, $0x0000000080000000
DATA whole<>+56(SB)/8, $0x0000000080000000
DATA whole<>+64(SB)/8, $0x0000ffff0000ffff
DATA whole<>+72(SB)/8, $0x0000ffff0000ffff
DATA whole<>+80(SB)/8, $0x0000ffff0000ffff
DATA whole<>+88(SB)/8, $0x0000ffff0000ffff
DATA whole<>+96(SB)/8, $0x000000ff000000ff
DATA whole<>+104(SB)/8, $0x000000ff000000ff
DATA whole<>+112(SB)/8, $0x000000ff000000ff
DATA whole<>+120(SB)/8, $0x000000ff000000ff
GLOBL whole<>(SB), RODATA|NOPTR, $128

// TAKE sets Y0, Y1 and Y2 to the red, green and blue of the eight pixels at DI and
// Y3 to the brightest of them.
#define TAKE \
	VMOVDQU (DI), X3 \
	VINSERTI128 $1, 24(DI), Y3, Y3 \
	VMOVDQU 8(DI), X4 \
	VINSERTI128 $1, 32(DI), Y4, Y4 \
	VPSHUFB apart<>+0(SB), Y3, Y0 \
	VPSHUFB apart<>+32(SB), Y4, Y5 \
	VPOR Y5, Y0, Y0 \
	VPSHUFB apart<>+64(SB), Y3, Y1 \
	VPSHUFB apart<>+96(SB), Y4, Y5 \
	VPOR Y5, Y1, Y1 \
	VPSHUFB apart<>+128(SB), Y3, Y2 \
	VPSHUFB apart<>+160(SB), Y4, Y5 \
	VPOR Y5, Y2, Y2 \
	VPMAXUD Y1, Y0, Y3 \
	VPMAXUD Y2, Y3, Y3

// PUT writes the eight pixels of Y4, Y5 and Y6 to DI and goes on to the next.
#define PUT \
	VPSLLD $16, Y5, Y5 \
	VPOR Y5, Y4, Y4 \
	VPSHUFB weave<>+0(SB), Y4, Y0 \
	VPSHUFB weave<>+32(SB), Y6, Y2 \
	VPOR    Y2, Y0, Y0 \
	VPSHUFB weave<>+64(SB), Y4, Y3 \
	VPSHUFB weave<>+96(SB), Y6, Y2 \
	VPOR    Y2, Y3, Y3 \
	VMOVDQU X0, (DI) \
	VMOVQ   X3, 16(DI) \
	VEXTRACTI128 $1, Y0, X0 \
	VEXTRACTI128 $1, Y3, X3 \
	VMOVDQU X0, 24(DI) \
	VMOVQ   X3, 40(DI) \
	ADDQ $48, DI

// TIMES sets out to v times by, both of 32 bits, rounded to 24 bits fewer. by may
// stand in memory; odd is it with the odd lanes moved down.
#define TIMES(v, by, odd, out) \
	VPMULUDQ by, v, Y10 \
	VPSRLQ $32, v, Y11 \
	VPMULUDQ odd, Y11, Y11 \
	VPADDQ Y15, Y10, Y10 \
	VPADDQ Y15, Y11, Y11 \
	VPSRLQ $24, Y10, Y10 \
	VPSLLQ $8, Y11, Y11 \
	VPBLENDD $0xaa, Y11, Y10, out

// LESS is v less black, which is in Y4, and not below Y5, which is nothing.
#define LESS(v, out) \
	VPSUBD Y4, v, out \
	VPMAXSD Y5, out, out

// SCALE multiplies v by what stands in memory and takes 16 bits off.
#define SCALE(by, v) \
	VPSRLQ $32, v, Y11 \
	VPMULUDQ by, v, v \
	VPMULUDQ by, Y11, Y11 \
	VPSRLQ $16, v, v \
	VPSLLQ $16, Y11, Y11 \
	VPBLENDD $0xaa, Y11, v, v

// LIFT brings v nearer to the brightest channel, Y13, as far as raw is clipped.
#define LIFT(raw, v) \
	VPCMPEQD Y14, Y14, Y14 \
	VPGATHERDD Y14, (R8)(raw*4), Y10 \
	VPSUBD v, Y13, Y11 \
	VPMULUDQ Y10, Y11, Y14 \
	VPSRLQ $32, Y10, Y10 \
	VPSRLQ $32, Y11, Y11 \
	VPMULUDQ Y10, Y11, Y11 \
	VPSRLQ $16, Y14, Y14 \
	VPSLLQ $16, Y11, Y11 \
	VPBLENDD $0xaa, Y11, Y14, Y14 \
	VPADDD Y14, v, v

// BEND multiplies v by the factors Y10, whose odd lanes are Y11 moved down, takes
// 32 bits off and puts it into line where Y12 says so.
#define BEND(v, line) \
	VPSRLQ $32, v, Y14 \
	VPMULUDQ Y10, v, v \
	VPMULUDQ Y11, Y14, Y14 \
	VPADDQ whole<>+32(SB), v, v \
	VPADDQ whole<>+32(SB), Y14, Y14 \
	VPSRLQ $32, v, v \
	VPBLENDD $0xaa, Y14, v, v \
	VPMINUD whole<>+64(SB), v, v \
	VPBLENDVB Y12, v, line, line

// func plainAVX2(pix *uint16, factor *uint32, blocks int)
TEXT ·plainAVX2(SB), NOSPLIT, $0-24
	MOVQ pix+0(FP), DI
	MOVQ factor+8(FP), SI
	MOVQ blocks+16(FP), CX
	VMOVDQU whole<>+0(SB), Y15

plain:
	TAKE
	VPCMPEQD Y14, Y14, Y14
	VPGATHERDD Y14, (SI)(Y3*4), Y12
	VPSRLQ $32, Y12, Y13
	TIMES(Y0, Y12, Y13, Y4)
	TIMES(Y1, Y12, Y13, Y5)
	TIMES(Y2, Y12, Y13, Y6)
	PUT
	DECQ CX
	JNZ  plain
	VZEROUPPER
	RET

// func balancedAVX2(pix *uint16, factor, clip *uint32, w *wide, blocks int)
TEXT ·balancedAVX2(SB), NOSPLIT, $0-40
	MOVQ pix+0(FP), DI
	MOVQ factor+8(FP), SI
	MOVQ clip+16(FP), R8
	MOVQ w+24(FP), BX
	MOVQ blocks+32(FP), CX
	VMOVDQU whole<>+0(SB), Y15

eight:
	TAKE
	VMOVDQU (BX), Y4
	VPXOR Y5, Y5, Y5
	LESS(Y0, Y7)
	LESS(Y1, Y8)
	LESS(Y2, Y9)
	TIMES(Y7, 96(BX), 96(BX), Y4)
	TIMES(Y8, 128(BX), 128(BX), Y5)
	TIMES(Y9, 160(BX), 160(BX), Y6)
	VPCMPGTD 32(BX), Y3, Y12 // above the straight line
	VPTEST Y12, Y12
	JZ put
	SCALE(192(BX), Y7)
	SCALE(224(BX), Y8)
	SCALE(256(BX), Y9)
	VPMAXUD Y8, Y7, Y13
	VPMAXUD Y9, Y13, Y13
	VPCMPGTD 64(BX), Y3, Y10 // where none is near full scale, none is clipped
	VPTEST Y10, Y10
	JZ bend
	LIFT(Y0, Y7)
	LIFT(Y1, Y8)
	LIFT(Y2, Y9)

bend:
	VPSRLD $8, Y13, Y0
	VPMINUD whole<>+64(SB), Y0, Y0
	VPAND whole<>+96(SB), Y13, Y1
	VPCMPEQD Y14, Y14, Y14
	VPGATHERDD Y14, (SI)(Y0*4), Y10
	VPCMPEQD Y14, Y14, Y14
	VPGATHERDD Y14, 4(SI)(Y0*4), Y11
	VPSUBD Y10, Y11, Y11
	VPMULLD Y1, Y11, Y11
	VPSRAD $8, Y11, Y11
	VPADDD Y11, Y10, Y10
	VPSRLQ $32, Y10, Y11
	BEND(Y7, Y4)
	BEND(Y8, Y5)
	BEND(Y9, Y6)

put:
	PUT
	DECQ CX
	JNZ  eight
	VZEROUPPER
	RET
