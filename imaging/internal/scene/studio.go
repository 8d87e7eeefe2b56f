package scene

// White, warm and dark papers for the backdrop.
var (
	lightPaper = srgb(222, 220, 215)
	warmPaper  = srgb(210, 202, 191)
	greyPaper  = srgb(148, 149, 150)
)

// fullFrame is a good camera on a tripod at low sensitivity: about 17 000
// electrons at white (common for such sensors, from memory).
var fullFrame = Sensor{Blur: 0.65, Vignette: 0.10, Shot: 6e-5, Read: 5e-4}

// studio returns a scene lit by one large softbox from the upper left and a
// weak one from the right, around a place on the floor.
func studio(at Vec, colour Vec, bend float64) Scene {
	return Scene{
		Backdrop: Backdrop{Colour: colour, Bend: bend, Radius: 900},
		Lights: []Light{
			{At: at.add(Vec{-1500, -900, 2300}), Aim: at, Width: 900, Height: 700, Power: 1, Colour: Vec{1.02, 1, 0.97}},
			{At: at.add(Vec{2300, -1300, 1300}), Aim: at, Width: 900, Height: 1200, Power: 0.14, Colour: Vec{0.97, 1, 1.03}},
			{At: at.add(Vec{300, 1000, 2100}), Aim: at.add(Vec{0, -200, 0}), Width: 1500, Height: 500, Power: 0.3},
		},
		Fill:   0.24,
		Level:  1.3,
		Sensor: fullFrame,
	}
}
