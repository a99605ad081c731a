package placard

import (
	"maps"
	"slices"
)

// words are those of the sheet in one language.
type words struct {
	motto, join, joinHow, network, password string
	open, openBoat, openPublic, typed       string
	compare, caution                        string
}

var languages = map[string]words{
	"en": {
		motto:      "Two codes at the dock, and your phone knows how deep each lure runs.",
		join:       "Join the boat’s Wi‑Fi",
		joinHow:    "Point the camera here and tap what it offers. If the phone says that there is no internet, stay on it.",
		network:    "Network",
		password:   "Password",
		open:       "Open the page",
		openBoat:   "Scan, and do what the page says. At its end your phone asks to come aboard: show the skipper its word.",
		openPublic: "Scan, ask to come aboard, and show the skipper the word. Then put the app on the home screen.",
		typed:      "Or type",
		compare:    "Before a phone trusts this boat’s certificate it shows its SHA-256 fingerprint. It must be:",
		caution:    "Wire under load cuts: never wrap it around a hand. The skipper decides, not a screen.",
	},
	"es": {
		motto:      "Dos códigos en el muelle, y su teléfono sabe a qué profundidad va cada señuelo.",
		join:       "Entre en la red de a bordo",
		joinHow:    "Apunte la cámara aquí y toque lo que ofrece. Si el teléfono dice que la red Wi‑Fi no tiene internet, quédese en ella.",
		network:    "Red Wi‑Fi",
		password:   "Contraseña",
		open:       "Abra la página",
		openBoat:   "Escanee el código y haga lo que dice la página. Al final su teléfono pide subir a bordo: muéstrele su palabra al patrón.",
		openPublic: "Escanee el código, pida subir a bordo y muéstrele la palabra al patrón. Después ponga la aplicación en la pantalla de inicio.",
		typed:      "O escriba",
		compare:    "Antes de confiar en el certificado de esta embarcación, el teléfono muestra su huella SHA-256. Debe ser:",
		caution:    "El alambre tenso corta: no se lo enrolle nunca en la mano. Decide el patrón, no una pantalla.",
	},
}

// Languages are those in which there is a sheet.
func Languages() []string { return slices.Sorted(maps.Keys(languages)) }
