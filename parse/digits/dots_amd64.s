#include "textflag.h"

// func dotsAVX2(sums *[8]float32, weights, rows *float32, n, reach int)
//
// Each sum gathers in the eight lanes of a register of its own, so that one load
// of weights serves eight rows.
TEXT ·dotsAVX2(SB), NOSPLIT, $0-40
	MOVQ sums+0(FP), DI
	MOVQ weights+8(FP), SI
	MOVQ rows+16(FP), AX
	MOVQ n+24(FP), CX
	MOVQ reach+32(FP), DX
	SHLQ $2, CX
	SHLQ $2, DX
	LEAQ (AX)(DX*1), BX
	LEAQ (AX)(DX*2), R8
	LEAQ (BX)(DX*2), R9
	LEAQ (AX)(DX*4), R10
	LEAQ (BX)(DX*4), R11
	LEAQ (R8)(DX*4), R12
	LEAQ (R9)(DX*4), R13
	VXORPS Y0, Y0, Y0
	VXORPS Y1, Y1, Y1
	VXORPS Y2, Y2, Y2
	VXORPS Y3, Y3, Y3
	VXORPS Y4, Y4, Y4
	VXORPS Y5, Y5, Y5
	VXORPS Y6, Y6, Y6
	VXORPS Y7, Y7, Y7
	XORQ DX, DX

eight:
	VMOVUPS (SI)(DX*1), Y8
	VFMADD231PS (AX)(DX*1), Y8, Y0
	VFMADD231PS (BX)(DX*1), Y8, Y1
	VFMADD231PS (R8)(DX*1), Y8, Y2
	VFMADD231PS (R9)(DX*1), Y8, Y3
	VFMADD231PS (R10)(DX*1), Y8, Y4
	VFMADD231PS (R11)(DX*1), Y8, Y5
	VFMADD231PS (R12)(DX*1), Y8, Y6
	VFMADD231PS (R13)(DX*1), Y8, Y7
	ADDQ $32, DX
	CMPQ DX, CX
	JLT  eight

	// Pairs of lanes are added until each register's sum is one lane of two halves.
	VHADDPS Y1, Y0, Y0
	VHADDPS Y3, Y2, Y2
	VHADDPS Y5, Y4, Y4
	VHADDPS Y7, Y6, Y6
	VHADDPS Y2, Y0, Y0
	VHADDPS Y6, Y4, Y4
	VEXTRACTF128 $1, Y0, X1
	VEXTRACTF128 $1, Y4, X5
	VADDPS X1, X0, X0
	VADDPS X5, X4, X4
	VMOVUPS X0, (DI)
	VMOVUPS X4, 16(DI)
	VZEROUPPER
	RET
