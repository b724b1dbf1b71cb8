package garment

import (
	"bufio"
	"encoding/csv"
	"os"
	"strconv"
	"strings"
	"testing"
)

// sampleBodies are the 300 bodies of testdata/bodies/sample.csv, from ANSUR II
// (2012; Gordon and others, NATICK/TR-15/007): 150 women, then 150 men.
func sampleBodies(t testing.TB) []Body {
	t.Helper()
	f, err := os.Open("../testdata/bodies/sample.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(bufio.NewReader(f))
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var out []Body
	for i, row := range rows[1:] {
		b := Body{Name: row[0] + " " + strconv.Itoa(i+1), Table: row[0], CM: map[Measure]float64{}}
		for k, text := range row[1:] {
			v, err := strconv.ParseFloat(strings.TrimSpace(text), 64)
			if err != nil {
				t.Fatal(err)
			}
			b.CM[Measure(rows[0][k+1])] = v
		}
		out = append(out, b)
	}
	if len(out) != 300 {
		t.Fatalf("%d bodies, want 300", len(out))
	}
	return out
}

// published is a row of percentiles: 5, 25, 50, 75, 95 %.
type published struct {
	m          Measure
	women, men [5]float64
}

// ansurPercentiles are the survey's percentiles over 1986 women and 4082 men,
// in cm, worked out from ANSUR II.
func ansurPercentiles() []published {
	return []published{
		{Stature, [5]float64{152.5, 158.6, 162.6, 167.2, 174.0}, [5]float64{164.8, 171.0, 175.5, 180.2, 187.0}},
		{BackNeckHeight, [5]float64{130.0, 135.5, 139.3, 143.4, 149.8}, [5]float64{141.6, 147.5, 151.7, 155.8, 162.3}},
		{WaistHeight, [5]float64{90.0, 94.7, 97.8, 101.3, 106.4}, [5]float64{97.2, 102.0, 105.5, 109.0, 114.5}},
		{InsideLeg, [5]float64{71.2, 75.3, 78.0, 81.2, 85.7}, [5]float64{77.1, 81.4, 84.5, 87.6, 92.5}},
		{KneeHeight, [5]float64{40.8, 43.2, 44.8, 46.6, 49.3}, [5]float64{44.3, 46.9, 48.7, 50.7, 53.6}},
		{NeckBaseGirth, [5]float64{34.0, 35.8, 37.0, 38.3, 40.5}, [5]float64{39.5, 41.7, 43.3, 45.1, 47.9}},
		{NeckGirth, [5]float64{30.2, 31.6, 32.8, 34.2, 36.3}, [5]float64{36.0, 37.9, 39.5, 41.4, 44.3}},
		{BustGirth, [5]float64{82.4, 88.9, 94.0, 99.9, 109.4}, [5]float64{92.2, 99.6, 105.6, 111.7, 120.7}},
		{WaistGirth, [5]float64{71.0, 79.0, 85.2, 92.5, 104.0}, [5]float64{76.8, 85.7, 93.7, 101.6, 113.1}},
		{HipGirth, [5]float64{90.1, 96.9, 101.8, 106.9, 115.6}, [5]float64{89.9, 96.7, 101.7, 106.8, 114.9}},
		{ShoulderLength, [5]float64{12.0, 12.8, 13.5, 14.2, 15.3}, [5]float64{13.3, 14.2, 15.0, 15.7, 16.7}},
		{AcrossBack, [5]float64{32.6, 35.2, 37.3, 39.3, 42.3}, [5]float64{37.4, 40.6, 43.0, 45.5, 49.1}},
		{ArmLength, [5]float64{49.7, 52.5, 54.2, 56.3, 59.4}, [5]float64{54.5, 57.2, 59.2, 61.2, 64.5}},
		{BackNeckToWrist, [5]float64{74.6, 78.2, 80.5, 83.0, 87.0}, [5]float64{83.1, 86.8, 89.5, 92.2, 96.3}},
		{UpperArmGirth, [5]float64{25.9, 28.5, 30.4, 32.4, 36.0}, [5]float64{30.3, 33.5, 35.7, 38.0, 41.8}},
		{WristGirth, [5]float64{14.2, 15.0, 15.4, 16.0, 16.8}, [5]float64{16.2, 17.0, 17.6, 18.2, 19.1}},
		{HandGirth, [5]float64{17.3, 18.0, 18.7, 19.2, 20.2}, [5]float64{19.5, 20.6, 21.2, 21.9, 23.0}},
		{HeadGirth, [5]float64{53.2, 54.8, 56.0, 57.3, 59.7}, [5]float64{54.8, 56.3, 57.4, 58.5, 60.1}},
		{ThighGirth, [5]float64{52.7, 57.9, 61.3, 65.1, 71.1}, [5]float64{53.2, 58.6, 62.4, 66.2, 72.3}},
		{CalfGirth, [5]float64{32.8, 35.4, 37.2, 39.2, 42.3}, [5]float64{34.6, 37.2, 39.2, 41.2, 44.3}},
		{AnkleGirth, [5]float64{19.3, 20.5, 21.5, 22.5, 24.2}, [5]float64{20.6, 21.9, 22.8, 23.9, 25.4}},
		{FootGirth, [5]float64{28.7, 30.0, 31.0, 32.0, 33.7}, [5]float64{31.7, 33.3, 34.3, 35.4, 37.2}},
		{BackNeckToWaist, [5]float64{38.4, 40.7, 42.5, 44.2, 47.0}, [5]float64{43.3, 45.9, 47.7, 49.5, 52.4}},
	}
}

// middle is the body with the survey's median of every measurement.
func middle(table string) Body {
	b := Body{Name: "median of the " + table, Table: table, CM: map[Measure]float64{}}
	for _, p := range ansurPercentiles() {
		b.CM[p.m] = p.women[2]
		if table == "men" {
			b.CM[p.m] = p.men[2]
		}
	}
	full, _ := b.Complete()
	return full
}
