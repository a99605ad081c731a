/** Palabras para los peores minutos. Cortas, en el orden de hacer; cada una con quien lo dice. */
import type { help as en } from "../en/help";

const list46 = "46 CFR 26.03-2, lista para emergencias, según una copia de 2022";
const tasmania = "Marine and Safety Tasmania";
const newSouthWales = "Transport for New South Wales, Maritime";
const marineRescue = "Marine Rescue New South Wales";
const course = "un curso náutico de Vermont";
const imo = "OMI, MSC.1/Circ.1185/Rev.1, 2012";
const bleed = "Stop the Bleed, American College of Surgeons, según una copia";
const tccc = "guías TCCC, 2021";
const eye = "Healthwise, un anzuelo en un ojo, 2023";
const harvard = "Facultad de Medicina de Harvard";
const peace = "PeaceHealth, método del tirón con hilo";
const squadrons = "US Power Squadrons, revista The Ensign";
const coastGuard = "US Coast Guard, según la prensa";
const minnesota = "Minnesota DNR";
const canada = "un curso náutico de Canadá";

export const help: typeof en = {
  help: {
    title: "Emergencias",
    what: "al agua, hemorragia, anzuelo, fuego, frío",
    defer:
      "Primero el patrón y quien tenga formación, y lo que la guardia costera diga por radio. Donde no se nombra fuente: práctica común, sin fuente.",
    source: (source) => `Fuente: ${source}`,
    radio: "Palabras para la radio",
    toRadio: "Radio",

    overboard: {
      title: "Hombre al agua",
      none: "Según las notas de este teléfono no hay nadie en el agua. El botón de arriba, en cada página, lo anota.",
      since: (time) => `${time} en el agua`,
      at: (time, who) => `${time && `desde las ${time}, `}anotado por ${who}`,
      steer: "Rumbo",
      true: "verd.",
      ahead: "por proa",
      port: (angle) => `${angle} a babor`,
      starboard: (angle) => `${angle} a estribor`,
      astern: "por popa",
      within: (radius) => `Busque a menos de ${radius} de ahí.`,
      drifted: (distance, from) =>
        `La corriente lo llevó unos ${distance}, ${
          {
            found: "según la que se halló",
            predicted: "solo según las tablas de mareas: nadie la midió",
            both: "según la que se halló, junto con las tablas de mareas",
          }[from]
        }. Ya está contado.`,
      noDrift:
        "Donde no se conoce la corriente, el círculo crece con el tiempo. Deriva con la corriente, como la embarcación con el motor apagado.",
      marked: (bearing, distance) => `Lugar marcado: ${bearing}, ${distance}.`,
      far: (distance) =>
        `Dudoso: un invitado anotó ese lugar, a ${distance} de aquí. Las palabras para la radio lo omiten. Pregunte antes de guiarse por él.`,
      shutOut:
        "Dudoso: lo anotó un teléfono que se dejó afuera. Las palabras para la radio omiten su lugar. Pregunte antes de guiarse por él.",
      doubtful: "dudoso",
      fixOld: (age) => `Con una posición de hace ${age}: la embarcación se movió desde entonces.`,
      fixGood: (age) => `Con una posición de hace ${age}.`,
      noFix: "Este teléfono no tiene posición: vuelva por la estela. El plóter quizá la tenga.",
      waiting: "Este teléfono está pidiendo su posición.",
      refused: "Este teléfono no puede saber su posición: permítalo en el navegador, o siga el plóter.",
      asking: "Calculando.",
      picture: (words) =>
        `La embarcación en el centro, el lugar probable de la persona con su círculo. ${words}`,
      bowUp: "proa arriba",
      northUp: "norte arriba",
      estimate:
        "Una estimación: desde el primer toque, con la corriente medida por última vez o la predicha y lo que dejan abierto. Primero los ojos.",
      toDo: "Qué hacer",
      steps: [
        { what: "Grite «¡Hombre al agua!», y por qué banda.", source: coastGuard },
        { what: "Lance un aro salvavidas, o lo que flote, lo más cerca que pueda.", source: list46 },
        { what: "Uno señala con el brazo y no mira otra cosa.", source: list46 },
        { what: "Timón: punto muerto enseguida, y la popa lejos de la persona.", source: tasmania },
        { what: "Líneas: déjelas. Uno con el cortador corta lo que estorbe, junto a la caña. Nadie recoge." },
        { what: "Vuelva despacio, contra viento y mar. Punto muerto con tiempo.", source: tasmania },
        { what: "Motor apagado cuando esté al costado.", source: newSouthWales },
        { what: "Por la popa o la escalera; los demás a la otra banda.", source: newSouthWales },
        { what: "Acostado, si se puede. Si el agua le pasa por la cara: lo más rápido.", source: imo },
        { what: "Nadie se tira sin chaleco puesto y un cabo a la embarcación.", source: list46 },
        {
          what: "Si no vuelve enseguida: Mayday, ya. Siga buscando hasta consultar a la guardia costera.",
          source: list46,
        },
        { what: "Otra vez a bordo: acuéstelo. Vea Frío." },
      ],
      skipper: "Es el patrón quien está en el agua",
      over: "Ya terminó",
      outcomes: {
        aboard: "Otra vez a bordo",
        "over to others": "Entregado: otros lo tienen, o siguen buscando",
        mistake: "Fue un error",
      },
      endedBy: (who) => `terminado por ${who}`,
      saidOver: (who, outcome) =>
        `${who} dice: ${outcome}. Solo lo termina la tripulación, o quien lo anotó.`,
      proposed: (outcome) =>
        `Se avisa a la tripulación: ${outcome.toLowerCase()}. Lo termina la tripulación, o quien lo anotó.`,
      noPlace: "sin posición",
      ended: (outcome) => `Anotado: ${outcome.toLowerCase()}.`,
      after:
        "Si pidió Mayday: diga a la guardia costera que terminó, por el 16. Una llamada que nadie cierra los tiene buscando.",
      pressed: (count) => `Ese teléfono lo pulsó ${count} veces. Todo cuenta como una.`,
      earlier: (count) => `${count} más, de antes.`,
      endAll: (count) => `Las ${count} de ese teléfono fueron un error`,
      endAllSure: (count) => `Sí, terminar las ${count}: ninguna es de verdad`,
      others: (count) => (count === 1 ? "Hay 1 más en el agua" : `Hay ${count} más en el agua`),
    },

    tourniquet: {
      note: "Torniquete puesto: anotar la hora",
      noted: (time) => `Torniquete puesto desde las ${time}. Escríbalo también en el torniquete.`,
      text: "Torniquete puesto",
    },

    pages: {
      alone: {
        title: "El patrón está en el agua",
        steps: [
          { what: "Usted puede. Grite para que el patrón lo oiga: lo vemos." },
          { what: "Uno señala al patrón y no hace otra cosa. Lance lo que flote.", source: list46 },
          { what: "Si el motor sigue andando: palanca al medio. Eso es punto muerto." },
          {
            what: "Radio: canal 16, apriete, lea las palabras de abajo, suelte, escuche. Ahora, no después.",
          },
          {
            what: "Si el corte paró el motor: ponga otra vez su clip, o el de repuesto. Palanca al medio, gire la llave.",
          },
          { what: "Líneas: córtelas junto a la caña, si estorban. Guantes." },
          {
            what: "Vire despacio. A paso de persona. Pase cerca, con la proa al viento y al mar.",
            source: tasmania,
          },
          {
            what: "Palanca al medio una eslora antes. Motor apagado con el patrón al costado.",
            source: newSouthWales,
          },
          { what: "Escalera o popa. No se tire.", source: minnesota },
          { what: "Si pierde de vista al patrón: pare, quédese ahí, dígalo por radio." },
        ],
      },
      bleeding: {
        title: "Hemorragia que no para",
        steps: [
          {
            what: "Guantes si los hay. Busque de dónde sale. Apriete fuerte, con las dos manos, en el punto.",
            source: bleed,
          },
          {
            what: "Profunda: rellénela con gasa o tela limpia, y siga apretando. No la levante para mirar.",
            source: bleed,
          },
          {
            what: "Brazo o pierna, y salta, empapa o no cede: torniquete, de dos a tres pulgadas (5 a 8 cm) más cerca del cuerpo que la herida, no sobre una articulación.",
            source: bleed,
          },
          {
            what: "No se ve de dónde sale: bien arriba en el miembro, y apretado, sobre la ropa.",
            source: tccc,
          },
          { what: "Gire hasta que pare. Duele. Asegúrelo. Si sigue: otro al lado.", source: tccc },
          { what: "Anote la hora. No lo afloje nunca: eso es del médico.", source: bleed },
          { what: "Cuello, axila, ingle: rellenar y apretar, sin torniquete.", source: tccc },
          { what: "Mayday. Acuéstelo, abríguelo, siga apretando." },
          { what: "Alambre que cortó hasta el hueso: lo mismo. El alambre se corta, nunca se tira de él." },
        ],
      },
      hook: {
        title: "Un anzuelo en una persona",
        steps: [
          { what: "Quieto. Primero suelte el pez. Corte la línea." },
          { what: "Corte o tape con cinta las otras puntas.", source: peace },
          {
            what: "Ojo, párpado o muy cerca: no lo saque. No apriete. Un vaso de papel encima; tape también el otro ojo, para que los dos queden quietos. Médico por radio.",
            source: eye,
          },
          { what: "Cara: no lo saque. Lo saca un médico.", source: harvard },
          {
            what: "Hondo, en una articulación, o dormido o blanco más allá: no lo saque, acolchónelo para que no se mueva, vaya al médico.",
          },
          {
            what: "Superficial, la rebaba bajo la piel, y sin médico al alcance: lazo de hilo fuerte en la curva, junto a la piel.",
            source: harvard,
          },
          {
            what: "Apriete la tija del anzuelo contra la piel. Los demás, fuera de su camino.",
            source: harvard,
          },
          { what: "Un tirón seco, en línea con la tija del anzuelo. Uno solo.", source: harvard },
          { what: "Si no sale, o duele demasiado: déjelo.", source: peace },
          {
            what: "Enjuague, lave con jabón, cubra. Un médico lo mira, y la vacuna del tétanos.",
            source: harvard,
          },
        ],
      },
      fire: {
        title: "Fuego",
        steps: [
          { what: "Grite. Todos lejos del fuego, chalecos puestos.", source: course },
          {
            what: "Vire para que el viento se lleve el fuego: fuego a popa, proa al viento; fuego a proa, popa al viento. Después pare.",
            source: course,
          },
          {
            what: "Combustible cerrado en el tanque o la pera; motor apagado; gas cerrado.",
            source: marineRescue,
          },
          { what: "Quítele el aire: escotillas, portillos, tapas.", source: list46 },
          { what: "Caja del motor: no levante la tapa. Rocíe por una rendija." },
          {
            what: "Extintor: saque el seguro, apunte a la base de las llamas, barra. Dura segundos.",
            source: course,
          },
          {
            what: "Agua solo en madera, tela y papel; nunca en combustible, aceite o cables.",
            source: course,
          },
          { what: "Mayday en cuanto no se apague con el primero.", source: marineRescue },
          {
            what: "Si no se puede con él: salga, por la banda de donde viene el viento.",
            source: marineRescue,
          },
          { what: "Apagado: vigílelo de cerca. El combustible sigue cerrado.", source: marineRescue },
        ],
      },
      cold: {
        title: "Frío, después del agua",
        steps: [
          {
            what: "No respira: despeje la boca, dos soplos, y luego 30 compresiones y dos soplos, 100 compresiones por minuto, como lo aprendió. Siga hasta que un médico diga otra cosa, o no pueda más.",
            source: imo,
          },
          {
            what: "Respira, no despierta: de lado, vía libre, al abrigo del viento. Vigile la respiración.",
            source: imo,
          },
          { what: "Con suavidad, siempre acostado. Sin caminar, sin frotar.", source: canada },
          {
            what: "Al abrigo. Fuera lo mojado si hay ropa seca; si no, abrigue por encima; algo impermeable por fuera.",
            source: imo,
          },
          {
            what: "Tirita y habla con sentido: bebidas dulces y calientes, mantas. Sin alcohol.",
            source: minnesota,
          },
          { what: "Dejó de tiritar, lento o confuso: grave. Mayday, y nada de beber." },
          { what: "Consulte a un médico por radio en todo caso, aunque parezca bien.", source: imo },
          {
            what: "Aún en el agua: piernas juntas, codos al costado, brazos cruzados en el pecho, quieto. Nade solo hacia algo cercano.",
            source: imo,
          },
        ],
      },
      abandon: {
        title: "Dejar la embarcación",
        steps: [
          { what: "Quédese con la embarcación mientras flote: se ve; una cabeza, no.", source: squadrons },
          { what: "Chalecos en todos, ropa de abrigo debajo, en cualquier agua.", source: imo },
          { what: "Mayday con la posición y cuántos son. Deje la radio encendida, lleve la portátil." },
          { what: "Baliza encendida. Bengalas: cuando alguien pueda verlas." },
          { what: "Lleve: radio, baliza, bengalas, luz, silbato, cuchillo, agua, teléfonos en una bolsa." },
          { what: "Cuente cabezas. Uno dice el número en voz alta." },
          {
            what: "A la balsa o a otra embarcación en seco, si se puede. Si no, al agua despacio, sin saltar.",
            source: imo,
          },
          { what: "Fuego: por la banda de donde viene el viento.", source: marineRescue },
          {
            what: "Agárrese de la embarcación, o de lo que flote; lo más fuera del agua posible; juntos.",
            source: squadrons,
          },
          { what: "Nunca se aleje nadando, salvo que derive hacia un peligro.", source: squadrons },
        ],
      },
    },
  },
};
