package garment

import (
	"fmt"
	"math"
)

// fit is a regression: cm = perStature · stature + perBust · bust girth + add,
// with its residual standard deviation.
type fit struct{ perStature, perBust, addCM, sdCM float64 }

// regressions are least-squares fits on 1324 women and 2721 men of ANSUR II
// (2012; Gordon and others, NATICK/TR-15/007), for both tables together (women
// and men weighing the same), women, men. Upper arm, body heights and lengths
// are sound; waist, hip and thigh girth are weak (SD 4 cm and more).
func regressions() map[Measure][3]fit {
	return map[Measure][3]fit{
		BackNeckHeight:  {{0.9166, 0.0254, -12.02, 1.08}, {0.9146, 0.0023, -9.61, 1.05}, {0.896, 0.0367, -9.51, 1.07}},
		WaistGirth:      {{-0.1331, 1.0286, 9.52, 5.49}, {-0.0188, 1.0142, -6.81, 5.43}, {-0.0134, 1.1303, -23.21, 5.17}},
		HipGirth:        {{-0.1158, 0.5506, 66.41, 5.82}, {0.2332, 0.6376, 3.83, 5.05}, {0.1599, 0.7065, -0.96, 4.08}},
		NeckGirth:       {{0.1498, 0.2506, -14.1, 2.11}, {0.0357, 0.1605, 11.97, 1.3}, {0.0061, 0.2321, 14.13, 1.57}},
		NeckBaseGirth:   {{0.1691, 0.2207, -10.46, 2.01}, {0.0843, 0.1352, 10.57, 1.4}, {0.0407, 0.2143, 13.64, 1.67}},
		HeadGirth:       {{0.0714, 0.0457, 40.1, 1.64}, {0.0911, 0.0302, 38.41, 1.82}, {0.0636, 0.0628, 39.64, 1.42}},
		ShoulderLength:  {{0.082, 0.0089, -0.52, 0.97}, {0.0619, 0, 3.42, 0.92}, {0.0618, 0.0015, 3.96, 0.96}},
		AcrossBack:      {{0.1018, 0.2819, -5.27, 2.61}, {0.0328, 0.2148, 11.66, 2.26}, {0.0077, 0.2788, 12.25, 2.56}},
		BackNeckToWaist: {{0.2189, 0.1411, -6.03, 2.19}, {0.1559, 0.1184, 5.97, 2.1}, {0.1757, 0.1221, 4, 2.1}},
		ScyeDepth:       {{0.1214, 0.0568, -9, 1.52}, {0.0683, 0.0119, 3.39, 1.35}, {0.0518, 0.0496, 4.47, 1.3}},
		BackNeckToWrist: {{0.498, 0.1362, -12.85, 2.35}, {0.449, 0.0813, -0.22, 2.14}, {0.4143, 0.1333, 2.69, 2.28}},
		ArmLength:       {{0.3721, 0.0087, -7.03, 1.8}, {0.3638, 0.0107, -5.95, 1.78}, {0.3625, 0, -4.36, 1.8}},
		UpperArmGirth:   {{0.0692, 0.313, -9.89, 2.19}, {0.0285, 0.2683, 0.55, 2.05}, {0.0074, 0.3132, 1.35, 2.14}},
		WristGirth:      {{0.0785, 0.0581, -2.57, 0.69}, {0.0525, 0.0395, 3.19, 0.57}, {0.0474, 0.0529, 3.66, 0.64}},
		HandGirth:       {{0.0992, 0.0563, -2.49, 0.92}, {0.0563, 0.0298, 6.66, 0.73}, {0.0557, 0.0471, 6.47, 0.81}},
		WaistHeight:     {{0.7085, -0.091, -8.97, 2.06}, {0.7468, -0.0888, -15.25, 2}, {0.7166, -0.0767, -12.09, 2.09}},
		InsideLeg:       {{0.588, -0.0664, -11.45, 2.35}, {0.614, -0.0662, -15.56, 2.35}, {0.6042, -0.051, -16.1, 2.31}},
		KneeHeight:      {{0.3322, -0.0047, -8.9, 1.48}, {0.3466, -0.0029, -11.31, 1.41}, {0.3452, 0.0041, -12.22, 1.53}},
		ThighGirth:      {{-0.0837, 0.4204, 34.08, 4.28}, {0.1291, 0.4486, -1.85, 4.04}, {0.0597, 0.527, -3.8, 3.45}},
		CalfGirth:       {{0.0284, 0.1919, 14.24, 2.23}, {0.0879, 0.1766, 6.29, 2.32}, {0.0467, 0.2333, 6.34, 2.02}},
		AnkleGirth:      {{0.0515, 0.0739, 6.14, 1.23}, {0.0614, 0.0619, 5.69, 1.31}, {0.052, 0.0881, 4.52, 1.13}},
		FootGirth:       {{0.1626, 0.0759, -2.43, 1.12}, {0.1393, 0.0547, 3.16, 1.07}, {0.1336, 0.0748, 3, 1.09}},
	}
}

// tableIndex is which of the three fits a table's name means.
func tableIndex(table string) (int, error) {
	for i, name := range []string{"", "women", "men"} {
		if table == name {
			return i, nil
		}
	}
	return 0, fmt.Errorf("the survey table is %q; accepted is women, men, or nothing for both together", table)
}

// estimate works a measurement out from the others. Body rise is waist height
// less inside leg length, by its meaning.
func (b Body) estimate(m Measure) (Estimate, error) {
	waist, hasWaist := b.CM[WaistHeight]
	leg, hasLeg := b.CM[InsideLeg]
	if m == BodyRise && hasWaist && hasLeg {
		return Estimate{m, round1(waist - leg), 1, fmt.Sprintf("%s %g cm − %s %g cm", WaistHeight, waist, InsideLeg, leg)}, nil
	}
	stature, hasStature := b.CM[Stature]
	bust, hasBust := b.CM[BustGirth]
	if !hasStature || !hasBust {
		return Estimate{}, fmt.Errorf("%s cannot be estimated without %s and %s; measure all three", m, Stature, BustGirth)
	}
	i, err := tableIndex(b.Table)
	if err != nil {
		return Estimate{}, err
	}
	fits, ok := regressions()[m]
	if !ok {
		return Estimate{}, fmt.Errorf("%s cannot be estimated; measure it", m)
	}
	f := fits[i]
	cm := f.perStature*stature + f.perBust*bust + f.addCM
	from := fmt.Sprintf("%.4g × stature %g cm %+.4g × bust girth %g cm and %+.4g cm (fitted on ANSUR II, 2012)",
		f.perStature, stature, f.perBust, bust, f.addCM)
	return Estimate{m, round1(cm), f.sdCM, from}, nil
}

// round1 rounds to a millimetre, as a tape is read.
func round1(cm float64) float64 { return math.Round(cm*10) / 10 }
