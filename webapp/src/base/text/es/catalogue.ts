/** Lo que el catálogo y las reglas del comienzo dicen en inglés: nombres, fuentes, notas. */
export const catalogue: { [english: string]: string } = {
  "from memory": "de memoria",
  "from memory; measure yours": "de memoria; mida el suyo",
  "from memory; weigh yours on a kitchen scale": "de memoria; pese la suya en una balanza de cocina",
  "from memory; drag as published for tow cables":
    "de memoria; resistencia según lo publicado para cables de remolque",
  "from memory; drag as of a plate that swings; weigh yours on a kitchen scale":
    "de memoria; resistencia como de una placa que oscila; pese la suya en una balanza de cocina",
  "common practice, no source": "práctica común, sin fuente",
  "common practice, no source; line out and drails worked out for this depth and speed":
    "práctica común, sin fuente; línea fuera y plomos calculados para esta profundidad y velocidad",
  "your own": "propio",
  "striped bass": "lobina rayada",
  bluefish: "anjova",
  "cod, gutted, in ice": "bacalao, eviscerado, en hielo",
  "FAO Fisheries Technical Paper 348, table 6.1, from memory":
    "FAO Fisheries Technical Paper 348, tabla 6.1, de memoria",
  "FAO Fisheries and Aquaculture Technical Paper 444, p. 65; FDA, Fish and Fishery Products Hazards and Controls, ch. 7, from memory":
    "FAO Fisheries and Aquaculture Technical Paper 444, p. 65; FDA, Fish and Fishery Products Hazards and Controls, cap. 7, de memoria",
  "cod, packed": "bacalao, empacado",
  "salmon, packed": "salmón, empacado",
  "ocean, state waters (0–3 nautical miles)": "océano, aguas estatales (0–3 millas náuticas)",
  "federal waters (3–200 nautical miles)": "aguas federales (3–200 millas náuticas)",
  "Chesapeake Bay": "Bahía de Chesapeake",
  "New York, marine waters": "Nueva York, aguas marinas",
  "Hudson River above the George Washington Bridge": "Río Hudson, arriba del puente George Washington",
  "Atlantic coast, striped bass": "Costa atlántica, lobina rayada",
  "New York, striped bass": "Nueva York, lobina rayada",
  "circle hooks with bait": "anzuelos circulares con carnada",
  "in-line circle hooks with bait": "anzuelos circulares en línea con carnada",
  "in-line circle hooks with bait; no gaffs":
    "anzuelos circulares en línea con carnada; sin bichero (gancho)",
  "At just the upper length the sources differ; here such a fish is released. States set seasons of their own.":
    "Justo en el largo superior las fuentes difieren; aquí ese pez se devuelve. Los estados fijan sus propias temporadas.",
  "At just the upper length the sources differ; here such a fish is released. Its states set seasons and closures of their own.":
    "Justo en el largo superior las fuentes difieren; aquí ese pez se devuelve. Sus estados fijan sus propias temporadas y vedas.",
  "At just the upper length the sources differ; here such a fish is released.":
    "Justo en el largo superior las fuentes difieren; aquí ese pez se devuelve.",
  "At just the upper length the sources differ; here such a fish is released. Only a private site was read, and the bag is from memory.":
    "Justo en el largo superior las fuentes difieren; aquí ese pez se devuelve. Solo se leyó un sitio privado, y el cupo es de memoria.",
  "No fishing for, harvest or possession. Transit through the zone off Block Island has rules of its own.":
    "Prohibido pescarlo, guardarlo o tenerlo. El paso por la zona frente a Block Island tiene reglas propias.",
  "ASMFC, Addendum II to Amendment 7, January 2024, as reported by the press; circle hooks: Addendum VI, 2019; day of force from memory":
    "ASMFC, Addendum II de la Enmienda 7, enero de 2024, según la prensa; anzuelos circulares: Addendum VI, 2019; día de vigencia de memoria",
  "NOAA Fisheries and 83 FR 50061, 2018; 50 CFR 697.7": "NOAA Fisheries y 83 FR 50061, 2018; 50 CFR 697.7",
  "New York State Department of Environmental Conservation, bulletin of 2025":
    "New York State Department of Environmental Conservation, boletín de 2025",
  "reported by a private site; from memory, check": "según un sitio privado; de memoria, compruébelo",
  centre: "centro",
  "long centre": "centro largo",
  "port corner": "esquina de babor",
  "starboard corner": "esquina de estribor",
  "port quarter": "aleta de babor",
  "starboard quarter": "aleta de estribor",
  "port rigger": "tangón de babor",
  "starboard rigger": "tangón de estribor",
};
