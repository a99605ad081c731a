"""Lines by GeographicLib (C. F. F. Karney, Algorithms for geodesics, J. Geodesy 87 (2013) 43; Debian's python3-geographiclib
2.0), which is good to 15 nm. Writes geodesic.json: [lat1, lon1, lat2, lon2 in degrees, metres, initial bearing in degrees]."""

import json
import random

from geographiclib.geodesic import Geodesic

random.seed(1)
lines = []


def line(lat1, lon1, lat2, lon2):
    g = Geodesic.WGS84.Inverse(lat1, lon1, lat2, lon2)
    lines.append([lat1, lon1, lat2, lon2, g["s12"], g["azi1"] % 360])


# The way back to a person: metres to miles, where one trolls and elsewhere, across the date line and near a pole.
for _ in range(150):
    lat, lon = random.uniform(-88, 88), random.uniform(-180, 180)
    away = 10 ** random.uniform(-6, 0)
    line(round(lat, 7), round(lon, 7), round(lat + random.uniform(-1, 1) * away, 7), round(lon + random.uniform(-1, 1) * away, 7))
for lon in (179.9999, 179.99, 179.5):
    line(41.2, lon, 41.201, -179.9999)
# Far, up to where Vincenty's series still find the way.
for _ in range(50):
    lat1, lon1 = random.uniform(-80, 80), random.uniform(-180, 180)
    lat2, lon2 = random.uniform(-80, 80), random.uniform(-180, 180)
    if Geodesic.WGS84.Inverse(lat1, lon1, lat2, lon2)["a12"] < 170:
        line(round(lat1, 7), round(lon1, 7), round(lat2, 7), round(lon2, 7))
line(0, 10, 0, 11)
line(10, 20, 11, 20)
line(41.25, -71.5, 90, 0)

with open("geodesic.json", "w") as out:
    out.write("[\n" + ",\n".join(json.dumps(one) for one in lines) + "\n]\n")
