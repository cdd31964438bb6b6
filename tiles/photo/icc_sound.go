package photo

// Bounds on what a profile may ask of the library that reads it. A tag says
// itself how many numbers follow; the library takes memory, or time, for as
// many as are claimed before it looks whether they are there.
const (
	maxTags       = 200
	maxCurve      = 1 << 16 // 16-bit samples cannot tell more points apart
	maxRoughCurve = 4096    // one that falls somewhere costs the square of its points
	maxWords      = 1 << 20 // all strings of a name together, bytes: records may share one
	maxChannels   = 4
)

// soundICC checks that every tag of a profile lies inside the data, and that
// what the tag claims to hold lies inside the tag (ICC.1:2022, 7.3 and 10).
func soundICC(data []byte) bool {
	if len(data) < 132 || len(data) > maxICC {
		return false
	}
	count := int64(be32(data[128:]))
	if count < 1 || count > maxTags || 132+12*count > int64(len(data)) {
		return false
	}
	for i := range count {
		entry := data[132+12*i:]
		from, size := int64(be32(entry[4:])), int64(be32(entry[8:]))
		if from < 132+12*count || from+size > int64(len(data)) || !soundTag(data[from:from+size]) {
			return false
		}
	}
	return true
}

// soundTag holds a tag's counts against its length. A type without counts, one
// that is not read, and one whose counts the library checks itself (desc) are
// sound whatever is in them.
func soundTag(tag []byte) bool {
	if len(tag) < 12 {
		return true
	}
	switch string(tag[:4]) {
	case "curv":
		return curveLength(tag) > 0
	case "mluc", "dmnd", "dmdd": // the library reads the last two as it reads the first
		return soundWords(tag)
	case "mft1":
		return len(tag) >= 48 && soundTables(tag, 48, 256, 256, 1)
	case "mft2":
		return len(tag) >= 52 && soundTables(tag, 52, int64(be16(tag[48:])), int64(be16(tag[50:])), 2)
	case "mAB ", "mBA ":
		return soundSteps(tag)
	}
	return true
}

// curveLength is the length of the curve (10.6, 10.18) at the beginning of the
// data, up to four bytes' padding; 0 where it is not all there or asks too much.
func curveLength(data []byte) int64 {
	if len(data) < 12 {
		return 0
	}
	length := int64(12)
	switch string(data[:4]) {
	case "curv":
		count := int64(be32(data[8:]))
		length += 2 * count
		if count > maxCurve || length > int64(len(data)) || count > maxRoughCurve && !rises(data[12:length]) {
			return 0
		}
	case "para":
		kind := be16(data[8:])
		if kind > 4 {
			return 0
		}
		length += 4 * []int64{1, 3, 4, 5, 7}[kind]
	default:
		return 0
	}
	if length > int64(len(data)) {
		return 0
	}
	return min((length+3)&^3, int64(len(data)))
}

// rises says whether no 16-bit sample is below the one before it.
func rises(samples []byte) bool {
	for i := 2; i+2 <= len(samples); i += 2 {
		if be16(samples[i:]) < be16(samples[i-2:]) {
			return false
		}
	}
	return true
}

// soundWords bounds a name in several languages (10.15), whose records may all
// share one string.
func soundWords(tag []byte) bool {
	all := int64(0)
	for at := 16; at+12 <= len(tag) && all <= maxWords; at += 12 {
		if int64(at-16)/12 == int64(be32(tag[8:])) {
			break
		}
		all += int64(be32(tag[at+4:]))
	}
	return all <= maxWords
}

// soundTables checks a table with as many steps on every side, between tables
// of so many entries for each channel in and out (10.10, 10.11).
func soundTables(tag []byte, head, in, out, bytes int64) bool {
	channelsIn, channelsOut := int64(tag[8]), int64(tag[9])
	if channelsIn > maxChannels || channelsOut > maxChannels || in > maxRoughCurve || out > maxRoughCurve {
		return false
	}
	sides := make([]byte, channelsIn)
	for i := range sides {
		sides[i] = tag[10]
	}
	return head+bytes*(channelsIn*in+points(sides)*channelsOut+channelsOut*out) <= int64(len(tag))
}

// points is how many points a table with so many steps a side has; the sides
// are at most four.
func points(sides []byte) int64 {
	n := int64(1)
	for _, side := range sides {
		n *= int64(side)
	}
	return n
}

// soundSteps checks a chain of curves, matrix and table (10.12, 10.13).
func soundSteps(tag []byte) bool {
	if len(tag) < 32 {
		return false
	}
	in, out := int(tag[8]), int(tag[9])
	if in > maxChannels || out > maxChannels {
		return false
	}
	for i, least := range []int64{0, 36, 0, 20, 0} {
		at := int64(be32(tag[12+4*i:]))
		if at == 0 {
			continue
		}
		if at+least > int64(len(tag)) || least == 0 && !soundCurves(tag[at:], max(in, out)) {
			return false
		}
	}
	if at := int64(be32(tag[24:])); at > 0 {
		table := tag[at:]
		precision := int64(table[16])
		return (precision == 1 || precision == 2) && 20+points(table[:in])*int64(out)*precision <= int64(len(table))
	}
	return true
}

// soundCurves checks the curves one after another, as many as there can be.
func soundCurves(data []byte, most int) bool {
	for range most {
		length := curveLength(data)
		if length == 0 {
			return string(data[:min(4, len(data))]) != "curv"
		}
		data = data[length:]
	}
	return true
}
