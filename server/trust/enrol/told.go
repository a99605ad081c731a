package enrol

import (
	"log/slog"

	"github.com/google/uuid"
	"github.com/labstack/echo/v4"

	"wirewake/server/store"
)

// told is under what a request keeps what the log tells of it.
const told = "told"

// Told is what the log tells of a request besides how it went: who did what to whom. It holds no secret, and nothing that
// a stranger sent who was refused.
func Told(c echo.Context) []slog.Attr {
	all, _ := c.Get(told).([]slog.Attr)
	return all
}

func tell(c echo.Context, more ...slog.Attr) { c.Set(told, append(Told(c), more...)) }

// tellPhone tells what happened to a phone.
func tellPhone(c echo.Context, did, name string, device uuid.UUID, role store.Role, trip *uuid.UUID) {
	tell(c, slog.String("did", did), slog.String("phone", name), slog.String("device", device.String()))
	tellRole(c, role, trip)
}

func tellRole(c echo.Context, role store.Role, trip *uuid.UUID) {
	if role != "" {
		tell(c, slog.String("role", string(role)))
	}
	if trip != nil {
		tell(c, slog.String("trip", trip.String()))
	}
}
