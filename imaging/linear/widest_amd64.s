#include "textflag.h"

// Where the words of sixteen woven pixels come from: below 32 from red and green,
// side by side in one register, above from blue.
DATA woven<>+0(SB)/8, $0x0002002000010000
DATA woven<>+8(SB)/8, $0x0005000400220003
DATA woven<>+16(SB)/8, $0x0026000700060024
DATA woven<>+24(SB)/8, $0x000a002800090008
DATA woven<>+32(SB)/8, $0x000d000c002a000b
DATA woven<>+40(SB)/8, $0x002e000f000e002c
DATA woven<>+48(SB)/8, $0x0012003000110010
DATA woven<>+56(SB)/8, $0x0015001400320013
DATA woven<>+64(SB)/8, $0x0036001700160034
DATA woven<>+72(SB)/8, $0x001a003800190018
DATA woven<>+80(SB)/8, $0x001d001c003a001b
DATA woven<>+88(SB)/8, $0x003e001f001e003c
GLOBL woven<>(SB), RODATA|NOPTR, $96

// CURVE sets out to the values of the segments at the levels v.
// the level within its segment, in ones; Z16 to Z21 are the coefficients.
#define CURVE(v, out) \
	VPSRLD $7, v, Z25 \
	VPANDD Z22, v, Z26 \
	VCVTDQ2PS Z26, Z26 \
	VMOVDQA32 Z25, Z27 \
	VMOVDQA32 Z25, out \
	VPERMI2PS Z21, Z20, Z25 \
	VPERMI2PS Z19, Z18, Z27 \
	VPERMI2PS Z17, Z16, out \
	VFMADD213PS Z27, Z26, Z25 \
	VFMADD231PS Z26, Z25, out \
	VCVTPS2DQ out, out

// CHROMA sets out to the sixteen interpolated samples of eight at p.
#define CHROMA(p, x, y, z) \
	VMOVDQU (p), x \
	VMOVDQU -2(p), X1 \
	VMOVDQU 2(p), X2 \
	VPADDW x, x, X3 \
	VPADDW x, X3, X3 \
	VPADDW X1, X3, X1 \
	VPADDW X2, X3, X2 \
	VPUNPCKLWD X2, X1, x \
	VPUNPCKHWD X2, X1, X1 \
	VINSERTI128 $1, X1, y, y \
	VPMOVSXWD y, z

// func bentRow(dst *uint16, luma *uint8, cb, cr *int16, b *bent, k *[6]int32, blocks int)
TEXT ·bentRow(SB), NOSPLIT, $0-56
	MOVQ dst+0(FP), DI
	MOVQ luma+8(FP), SI
	MOVQ cb+16(FP), DX
	MOVQ cr+24(FP), R9
	MOVQ b+32(FP), BX
	MOVQ k+40(FP), AX
	MOVQ blocks+48(FP), CX
	VMOVDQU32 (BX), Z16
	VMOVDQU32 64(BX), Z17
	VMOVDQU32 128(BX), Z18
	VMOVDQU32 192(BX), Z19
	VMOVDQU32 256(BX), Z20
	VMOVDQU32 320(BX), Z21
	VMOVDQU32 woven<>+0(SB), Z23
	VMOVDQU32 woven<>+64(SB), Y24
	VPXORD Z7, Z7, Z7
	VPBROADCASTD (AX), Z8    // what every luma sum starts from
	VPBROADCASTD 4(AX), Z9   // luma
	VPBROADCASTD 8(AX), Z10  // red by cr
	VPBROADCASTD 12(AX), Z11 // green by cb
	VPBROADCASTD 16(AX), Z12 // green by cr
	VPBROADCASTD 20(AX), Z13 // blue by cb
	MOVL $4080, AX
	VPBROADCASTD AX, Z15
	MOVL $127, AX
	VPBROADCASTD AX, Z22

sixteen:
	CHROMA(DX, X0, Y0, Z0)
	CHROMA(R9, X4, Y4, Z4)
	VPMOVZXBD (SI), Z2
	VPMULLD Z9, Z2, Z2
	VPADDD  Z8, Z2, Z2
	VPMULLD Z10, Z4, Z3
	VPADDD  Z2, Z3, Z3
	VPMULLD Z12, Z4, Z4
	VPMULLD Z11, Z0, Z5
	VPSUBD  Z4, Z2, Z6
	VPSUBD  Z5, Z6, Z5
	VPMULLD Z13, Z0, Z0
	VPADDD  Z2, Z0, Z0
	VPSRAD  $16, Z3, Z3
	VPSRAD  $16, Z5, Z5
	VPSRAD  $16, Z0, Z0
	VPMAXSD Z7, Z3, Z3
	VPMAXSD Z7, Z5, Z5
	VPMAXSD Z7, Z0, Z0
	VPMINSD Z15, Z3, Z3
	VPMINSD Z15, Z5, Z5
	VPMINSD Z15, Z0, Z0
	CURVE(Z3, Z28)
	CURVE(Z5, Z29)
	CURVE(Z0, Z30)
	VPSLLD $16, Z29, Z29
	VPORD Z29, Z28, Z28
	VMOVDQA32 Z23, Z1
	VPERMI2W Z30, Z28, Z1
	VMOVDQU32 Z1, (DI)
	VMOVDQA32 Z24, Z2
	VPERMI2W Z30, Z28, Z2
	VMOVDQU Y2, 64(DI)
	ADDQ $96, DI
	ADDQ $16, SI
	ADDQ $16, DX
	ADDQ $16, R9
	DECQ CX
	JNZ  sixteen
	VZEROUPPER
	RET
