package main

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"ellwand/garment"
)

// surveyNames are the survey's columns, in mm, and what they measure.
func surveyNames() map[string]garment.Measure {
	return map[string]garment.Measure{
		"stature": garment.Stature, "cervicaleheight": garment.BackNeckHeight, "waistheightomphalion": garment.WaistHeight,
		"crotchheight": garment.InsideLeg, "kneeheightmidpatella": garment.KneeHeight, "neckcircumferencebase": garment.NeckBaseGirth,
		"neckcircumference": garment.NeckGirth, "chestcircumference": garment.BustGirth, "waistcircumference": garment.WaistGirth,
		"buttockcircumference": garment.HipGirth, "shoulderlength": garment.ShoulderLength, "interscyei": garment.AcrossBack,
		"sleeveoutseam": garment.ArmLength, "sleevelengthspinewrist": garment.BackNeckToWrist,
		"bicepscircumferenceflexed": garment.UpperArmGirth, "wristcircumference": garment.WristGirth,
		"handcircumference": garment.HandGirth, "headcircumference": garment.HeadGirth, "thighcircumference": garment.ThighGirth,
		"calfcircumference": garment.CalfGirth, "anklecircumference": garment.AnkleGirth,
		"heelanklecircumference": garment.FootGirth, "waistbacklength": garment.BackNeckToWaist,
	}
}

func readBodies(name string) ([]garment.Body, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, fmt.Errorf("opening the bodies: %w", err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		return nil, fmt.Errorf("reading %s: %w", name, err)
	}
	if len(rows) < 2 {
		return nil, fmt.Errorf("%s holds no body; accepted is a head line and a row for each", name)
	}
	table := strings.TrimSuffix(filepath.Base(name), filepath.Ext(name))
	if table != "women" && table != "men" {
		table = ""
	}
	var out []garment.Body
	for i, row := range rows[1:] {
		b, err := oneBody(rows[0], row)
		if err != nil {
			return nil, fmt.Errorf("%s, body %d: %w", name, i+1, err)
		}
		if b.Table == "" {
			b.Table = table
		}
		b.Name = fmt.Sprintf("%s %d", filepath.Base(name), i+1)
		out = append(out, b)
	}
	return out, nil
}

func oneBody(head, row []string) (garment.Body, error) {
	b := garment.Body{CM: map[garment.Measure]float64{}}
	survey, armpit := surveyNames(), math.NaN()
	for k, name := range head {
		if name == "table" || name == "set" {
			b.Table = row[k]
			continue
		}
		v, err := strconv.ParseFloat(strings.TrimSpace(row[k]), 64)
		if err != nil {
			return b, fmt.Errorf("%s is %q; accepted is a number", name, row[k])
		}
		short := strings.TrimSuffix(name, "_mm")
		if m, ok := survey[short]; ok {
			b.CM[m] = v / 10
		} else if short == "axillaheight" {
			armpit = v / 10
		} else if strings.HasSuffix(name, "_cm") {
			b.CM[garment.Measure(name)] = v
		}
	}
	if !math.IsNaN(armpit) {
		b.CM[garment.ScyeDepth] = b.CM[garment.BackNeckHeight] - armpit
	}
	waist, ok := b.CM[garment.WaistHeight]
	leg, ok2 := b.CM[garment.InsideLeg]
	if _, given := b.CM[garment.BodyRise]; !given && ok && ok2 {
		b.CM[garment.BodyRise] = waist - leg
	}
	return b, nil
}
