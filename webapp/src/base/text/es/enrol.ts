/** Palabras de subir a bordo: la entrada, la preparación, los teléfonos. Los números llegan ya escritos. */
import type { enrol as en } from "../en/enrol";

export const enrol: typeof en = {
  enrol: {
    title: "A bordo",
    about: "Juntar las notas con las de la tripulación",
    what: "Para calcular y anotar no hace falta servidor. Subir a bordo junta las notas de todos los teléfonos cada vez que el servidor de la embarcación está al alcance.",
    whatGoes:
      "Entonces todas las notas de este teléfono van al servidor de la embarcación, y las de la tripulación vienen aquí. Un invitado manda y ve una sola salida.",
    insecure:
      "Esta página llegó por http simple. Un teléfono solo puede subir a bordo por una conexión segura (https): nadie debe poder escuchar la llave que recibe.",
    gone: "La embarcación ya no conoce este teléfono: lo dejaron afuera, o hace mucho que no se lo ve.",
    goneWhat:
      "Lo que anotó sigue en este teléfono. Para que vuelva a llegar a la tripulación, pida subir aquí, o escriba el código de una invitación nueva.",
    invited: "Aquí hay una invitación.",
    yourName: "Un nombre para este teléfono",
    nameHint: "Como lo leerá la tripulación junto a sus notas",
    needName: "Dele un nombre al teléfono, por ejemplo el de su dueño.",
    named:
      "Un teléfono a bordo tiene este nombre, o uno que se ve igual. Elija otro, por ejemplo con un apellido o un número. Si era este mismo teléfono, el patrón puede dejar afuera aquel.",
    ours: "Así llama la propia aplicación a los teléfonos, o a lo que son a bordo. Elija un nombre propio, por ejemplo el del dueño.",
    code: "Código",
    codeHint: "Ocho letras y cifras, del patrón",
    needCode:
      "Escriba el código de ocho letras y cifras que muestra el teléfono del patrón, o lea su código QR con la cámara.",
    come: "Subir a bordo",
    byCode: "O con un código",
    scan: "Si el patrón hizo una invitación para usted, léala con la cámara, o escriba el código que está debajo.",
    left: (n) =>
      n === 0 ? "Este es el último paso." : n === 1 ? "Después, un paso más." : `Después, ${n} pasos más.`,
    on: {
      ready: "Sigue: ¿está este teléfono listo para salir?",
      briefing: "Sigue: la charla",
      lines: "Sigue: las líneas",
    },
    asks: {
      iosFirst:
        "En iPhone y iPad, ponga primero la aplicación en la pantalla de inicio y pida desde allí: allí empieza como nueva.",
      what: "Este teléfono pide subir, y el del patrón dice que sí.",
      ask: "Pedírselo al patrón",
      word: "Su palabra es",
      say: "Dígasela al patrón: su teléfono muestra el nombre de usted y la misma palabra. Puede tardar un momento.",
      until: (time) => `Espera un sí hasta las ${time}. Puede guardar el teléfono; deje abierta esta página.`,
      nobody: (word) =>
        `Todavía no hay a bordo un teléfono del patrón que diga que sí. Quien maneja el servidor de la embarcación escribe allí: wirewake welcome ${word} --role skipper (y --data, si el servidor lo tiene)`,
      giveUp: "No esperar",
      refused: "El teléfono del patrón dijo que no. Hable con el patrón.",
      lapsed: "Nadie contestó a tiempo.",
      named:
        "Mientras tanto hay a bordo un teléfono con este nombre, o con uno que se ve igual. Pídalo otra vez con otro.",
      again: "Pedirlo otra vez",
      otherwise: "Subir de otra manera",
    },
    waiting: {
      some: (name, word) => `${word}: «${name}» pide subir a bordo.`,
      many: (n) => `${n} teléfonos piden subir a bordo.`,
      look: "Ver",
      title: (name) => `«${name}» pide subir a bordo`,
      compare: "Solo si ese teléfono, puesto junto al suyo, muestra esta palabra:",
      as: "Como",
      yes: "Sí, a bordo",
      no: "No",
      block: "No, y bloquear",
      more: (n) => `${n} más`,
      unseen: (n) =>
        `Esperan ${n} más, demasiados para mostrarlos. Escriba la palabra que muestra el teléfono.`,
      word: "Palabra",
      noWord: "Ningún teléfono pide con esta palabra.",
      noToAll: (n) => `No a todos (${n})`,
      blockWhat: "Bloqueado, nadie puede pedir desde la dirección de red de ese teléfono durante doce horas.",
      told: (name, role) => `«${name}» puede subir a bordo: ${role}.`,
      takeBack: "Retirarlo",
      blocked: (n) =>
        n === 1
          ? "Los teléfonos de una dirección de red no pueden pedir."
          : `Los teléfonos de ${n} direcciones de red no pueden pedir.`,
      unblock: "Que puedan pedir otra vez",
    },
    oneCode: {
      title: "Un código para todos",
      how: "Que lean esto en el muelle, en la red de la embarcación. El teléfono los lleva por todos los pasos y pide subir a bordo; usted dice que sí aquí.",
      fingerprint:
        "Donde su teléfono muestra la huella SHA-256 del certificado antes de confiar en él, debe ser esta:",
      away: "Junto al servidor de la embarcación está aquí el código que alcanza para todos.",
      notForPhones: "Los teléfonos no llegan a la dirección con que anda este servidor.",
    },
    welcome: (name) => `A bordo como «${name}».`,
    iAm: (name, role) => `Este teléfono es «${name}», ${role}.`,
    saidByServer: {
      refused:
        "La embarcación no acepta el pedido de este teléfono. Pídale una invitación al patrón en persona.",
      name: "Un teléfono a bordo tiene este nombre, o uno que se ve igual. Elija otro.",
      named:
        "Mientras tanto hay a bordo otro teléfono con este nombre, o con uno que se ve igual. Diga que no, y que este pida con otro.",
      trip: "El servidor de la embarcación no tiene esta salida. Deje que un teléfono que la tiene envíe primero sus notas, y pruebe otra vez.",
      enough: "Hay demasiadas invitaciones abiertas: termine las que no hagan falta.",
      method: "Este servidor es más viejo que la aplicación, y no sabe hacerlo.",
      changed: "Este teléfono ya no pide, o muestra otra palabra. Mire la lista otra vez.",
      aboard: "Este teléfono no está a bordo. Pídale una invitación al patrón.",
      origin: "Este pedido no viene de las páginas de la aplicación.",
      role: "Esto no le corresponde a este teléfono.",
      invitation: "Esta invitación no vale, o ya no vale. Pídale otra al patrón.",
      plain:
        "Por http simple no se puede subir ningún teléfono a bordo: quien escuche la red podría tomar su lugar. Abra la aplicación por https.",
      key: "Otro teléfono tiene esta clave. Pruebe otra vez.",
      nothing: "No está ahí, o no es para este teléfono.",
      often: "Hubo demasiados intentos equivocados. Espere un poco y pruebe otra vez.",
      version:
        "La aplicación de este teléfono y el servidor son de épocas demasiado distintas. Actualice el más viejo.",
      store: "El servidor no puede usar su memoria ahora. Pruebe otra vez.",
      suspended: "El puerto no atiende a esta embarcación por ahora. Quien cuida el puerto dice por qué.",
      full: "El disco del servidor está lleno. Avise al patrón.",
      fault: "Algo salió mal en el servidor; su registro dice qué.",
      form: "El servidor no entendió el pedido.",
      size: "Es más de lo que cabe en un pedido.",
    },
    roles: { skipper: "patrón", mate: "tripulante", guest: "invitado" },
    roleWhat: {
      skipper: "Ve y escribe todo, invita teléfonos y los deja afuera.",
      mate: "Ve y escribe todas las salidas.",
      guest: "Ve y escribe una sola salida.",
    },
    again: "Subir a bordo de nuevo",
    skippers:
      "Solo el teléfono del patrón deja subir a otros o los deja afuera. Quien quiera subir a bordo lo pide desde su propio teléfono: Pañol, A bordo.",
    invite: "Invitar un teléfono",
    phones: "Teléfonos a bordo",
    unreachable: "El servidor de la embarcación no está al alcance. Esto solo se puede hacer junto a él.",
    slow: "El servidor de la embarcación no contesta. Pruebe otra vez.",
    unsound:
      "Lo que contesta no es el servidor de la embarcación. Si es la red de una marina, entre primero en ella.",
    asking: "Preguntando al servidor de la embarcación",
    invitation: {
      title: "Una invitación que no necesita un sí",
      what: "Para teléfonos que ya abren la aplicación, o para más tarde, o para otro lugar: quien tiene el enlace o el código sube a bordo.",
      role: "¿Para quién es?",
      trip: "¿Qué salida?",
      noTrip: "A un invitado se lo invita a una salida. Empiece una primero.",
      hours: "Vale por",
      hoursOf: { "4": "4 horas", "24": "un día", "168": "una semana" },
      uses: "Teléfonos",
      make: "Hacer la invitación",
      scan: "Que lean esto con la cámara.",
      qr: "Código QR de la invitación",
      orCode: "O, donde la aplicación ya está abierta: Pañol, A bordo, y este código",
      codeEnds: (time) => `El código vale una vez, hasta las ${time}.`,
      ends: (time, uses) =>
        `La invitación vale hasta ${time}, para ${uses === 1 ? "un teléfono" : `${uses} teléfonos`}. No se muestra otra vez.`,
      another: "Hacer otra",
    },
    open: {
      title: "Invitaciones abiertas",
      what: "Quien tiene el enlace de una sube a bordo con él.",
      none: "No hay ninguna abierta.",
      mayComeBack: (n) =>
        `El que quedó afuera vuelve a subir con ${n === 1 ? "esta" : "cualquiera de estas"}, si tiene el enlace.`,
      cameBy: "Este teléfono había subido con ella.",
      uses: (n) => (n === 1 ? "para un teléfono" : `para ${n} teléfonos`),
      until: (time) => `hasta ${time}`,
      made: (time, who) => `hecha ${time} ${who ? `por ${who}` : "en la terminal"}`,
      end: "Terminarla",
      endAll: (n) => `Terminar las ${n}`,
    },
    phone: {
      you: "este teléfono",
      out: "afuera",
      outSince: "Dejado afuera",
      outs: (count) => `Afuera: ${count}`,
      enrolled: "Subió a bordo",
      lastSeen: "Último intercambio",
      never: "nunca",
      holds: (count) => (count === 1 ? "1 retenido" : `${count} retenidos`),
      holding: "Retenido allí",
      holdsWhat:
        "Estas notas o fotos están en ese teléfono y no en el servidor de la embarcación, según dijo él mismo en su último intercambio. Mire en él «Lo que no se envió»: allí dice por qué y qué hacer.",
      missing: "Anotado, aún no llegado",
      ready: "Listo para salir, al",
      trip: "Salida",
      role: "Es",
      shutOut: "Dejar afuera este teléfono",
      shutOutWhat:
        "Conserva sus notas y puede guardarlas, pero desde ahora el servidor no lo atiende. Para que vuelva a entrar, invítelo.",
    },
  },

  ready: {
    title: "Listo para salir",
    about: "¿Funcionará este teléfono sin señal?",
    summary: (open) =>
      open === 0 ? "Todo está listo." : open === 1 ? "Falta una cosa." : `Faltan ${open} cosas.`,
    standings: { good: "Listo", todo: "Por hacer", never: "Aquí no" },
    checks: {
      secure: {
        name: "Conexión segura",
        good: "La página llegó por una conexión que le permite al teléfono conservarla.",
        todo: "",
        never:
          "La página llegó por http simple. Así los navegadores no conservan nada para usar sin señal. Abra la dirección https que muestra la computadora del patrón, o pídale que arranque el servidor con un certificado.",
      },
      control: {
        name: "Abre sin señal",
        good: "La aplicación abrirá con la radio del teléfono apagada.",
        todo: "La aplicación aún no gobierna esta página. Cárguela una vez más mientras tenga señal.",
        never: "Este navegador no puede conservar una aplicación, o la conexión no es segura.",
        act: "Cargar de nuevo",
      },
      files: {
        name: "Todas las partes a bordo",
        good: "Todos los archivos de la aplicación están en este teléfono.",
        todo: "Aún faltan archivos en este teléfono. Quédese aquí con señal un minuto.",
        never: "Desde esta dirección no se puede conservar nada en este teléfono.",
      },
      desk: {
        name: "Calculadora",
        good: "Funciona.",
        todo: "Está arrancando.",
        never: "No arranca. Cargue la página otra vez; si no ayuda, use un navegador más nuevo.",
      },
      storage: {
        name: "Memoria que queda",
        good: "El teléfono prometió no borrar lo que usted escribe.",
        todo: "El teléfono puede borrar lo que usted escribe si le falta espacio. Pídale que no lo haga; si no acepta, ponga primero la aplicación en la pantalla de inicio.",
        refused:
          "Se le pidió y no prometió nada. Ponga la aplicación en la pantalla de inicio y pídaselo otra vez; mientras tanto guarde sus notas en un archivo de vez en cuando.",
        never:
          "Este navegador no promete eso. Ponga la aplicación en la pantalla de inicio, y no borre los datos del navegador.",
        act: "Pedírselo al teléfono",
      },
      room: {
        name: "Lugar para notas y fotos",
        good: (used, free) => `La aplicación ocupa ${used}; hay lugar para ${free} más.`,
        unknown: "Este navegador no dice cuánto lugar hay.",
        todo: (free) =>
          `Quedan solo ${free}. Las notas van primero; las fotos esperan si está lleno. Libere espacio en el teléfono.`,
      },
      install: {
        name: "En la pantalla de inicio",
        good: "La aplicación se abrió desde la pantalla de inicio.",
        todo: "Desde la pantalla de inicio se abre como cualquier aplicación, y el teléfono la conserva más tiempo.",
        never: "Desde esta dirección sería solo un marcador. Primero atienda la conexión segura.",
        act: "Ponerla ahí",
        show: "Mostrar cómo",
      },
      position: {
        name: "Posición",
        good: "Este teléfono le da su posición a esta aplicación.",
        todo: "La velocidad, la corriente y el lugar de una nota la necesitan. Deje que el teléfono pregunte; pregunta una vez. Si antes dijo que no, permítalo en los ajustes del navegador para esta dirección.",
        refused:
          "Se le preguntó y dijo que no. Permita la posición en los ajustes del navegador para esta dirección y vuelva a preguntarle.",
        never:
          "Este teléfono no da posición aquí. Las velocidades se pueden escribir, y las notas quedan sin lugar.",
        act: "Pedírsela al teléfono",
      },
      tables: {
        name: "Tablas de marea y corriente",
        good: "Están en este teléfono: marea, corriente y luz sin señal.",
        todo: "Llegan solas después de la aplicación, y aún no están.",
        never: "Este navegador no puede guardarlas: marea y corriente solo con el servidor al alcance.",
        act: "Traerlas ahora",
      },
      wake: {
        name: "La pantalla puede quedar encendida",
        good: "Este navegador puede mantener encendida la pantalla.",
        todo: "",
        never: "Este navegador no puede. En los ajustes del teléfono, deje la pantalla encendida más tiempo.",
      },
      alarms: {
        name: "Se oyen las alarmas",
        act: "Hacer sonar la alarma",
        heard: "La oí",
        good: "Oída desde que se abrió la aplicación. Un teléfono bloqueado no suena: deje la pantalla encendida.",
        todo: "Suba el volumen, quite el modo silencio y haga sonar la alarma como sonará en el mar. Un teléfono bloqueado no suena: deje la pantalla encendida.",
        tried:
          "¿La oyó por encima del motor? Si no: más volumen, sin modo silencio, y hágala sonar otra vez en Líneas, Instrumentos.",
        never: "",
      },
      rules: {
        name: "Reglas de talla y cupo",
        good: "Las de las aguas elegidas se consultaron en el último año. Consúltelas otra vez al empezar una temporada.",
        todo: {
          good: "Consúltelas en tierra, antes de salir.",
          nowhere: "Consúltelas en tierra, antes de salir: no hay aguas elegidas.",
          old: "Consúltelas en tierra, antes de salir: una regla está vencida.",
        },
        never: "",
        act: "A las reglas",
      },
    },
    megabytes: (number) => `${number} MB`,
    elsewhere: {
      address: "La dirección que hay que abrir allí",
      what: "Esta página está abierta dentro de otra aplicación. Así no puede conservar nada para el mar: ábrala en el navegador propio del teléfono.",
      how: "Copie la dirección, abra Safari y péguela; o use el menú de esta aplicación para abrirla allí.",
      open: "Abrirla allí",
      copy: "Copiar la dirección",
      copied: "Copiada",
    },
    install: {
      title: "A la pantalla de inicio",
      which: "¿En qué teléfono?",
      platforms: { ios: "iPhone, iPad", android: "Android", computer: "Computadora" },
      steps: {
        ios: [
          "En Safari, toque el signo de compartir: el cuadrado con una flecha hacia arriba. Está en la barra de abajo o de arriba.",
          "Suba la lista y toque «Agregar a Inicio».",
          "Toque «Agregar», arriba.",
          "Cierre Safari, y desde ahora abra Wirewake desde la pantalla de inicio.",
          "Empieza como nueva: allí, en el Pañol, en A bordo, pídaselo al patrón.",
        ],
        android: [
          "Abra el menú del navegador: tres puntos, arriba o abajo.",
          "Toque «Instalar aplicación» o «Agregar a la pantalla principal», y acepte.",
          "Desde ahora abra Wirewake desde la pantalla de inicio.",
        ],
        computer: [
          "A la derecha de la línea de dirección, busque el signo que instala una aplicación, o mire en el menú del navegador.",
          "También sirve sin eso: la página abre sin red una vez que se cargó.",
        ],
      },
      empty:
        "La aplicación de la pantalla de inicio empieza vacía: iPhone y iPad no pasan lo que se anotó en el navegador.",
      nothingHere: "Aquí no espera ninguna nota, así que no queda nada atrás.",
      sendFirst: (n) =>
        `Primero deje que este teléfono mande sus notas: esperan ${n}. Vuelven desde el servidor de la embarcación.`,
      saveFirst: (n) =>
        `Primero guarde en un archivo lo anotado aquí (${n}), y cárguelo en la aplicación de la pantalla de inicio.`,
    },
    try: {
      title: "Después, pruébelo",
      how: "Todavía en el muelle: ponga el modo avión, cierre la aplicación, ábrala otra vez. Si aparecen las profundidades, funcionará afuera.",
    },
  },

  wayIn: {
    code: (url) => `Código QR de ${url}`,
    scan: "Lea el código con cada teléfono mientras está en el muelle. Después mire Listo para salir, en el Pañol.",
    insecure:
      "Esta dirección es http simple: los teléfonos pueden usar la aplicación mientras está abierta, pero no conservarla para usar sin señal. Lo que dice el servidor al arrancar explica por qué, y qué hacer.",
    here: "Usarla aquí",
    compare:
      "El teléfono puede mostrar los detalles del certificado antes de confiar en él. Su huella SHA-256 debe ser:",
    others: "Otras direcciones",
    earlier: (url, keep) =>
      `Los teléfonos que cargaron la aplicación de ${url} conservan allí sus aparejos. Para tener otra vez esa dirección, ${keep}.`,
    introduced: (url) =>
      `Allí cada teléfono recibe una vez el certificado de la autoridad de esta embarcación. Después, la aplicación está en ${url}.`,
    door: {
      why: "Una cosa antes de abrir la aplicación. Una embarcación no tiene nombre en internet, así que hay que decirle una vez a su teléfono que este servidor es el de la embarcación. Lleva un minuto; después la aplicación queda en el teléfono y funciona sin señal.",
      kind: "Esto es",
      kinds: { ios: "iPhone, iPad", android: "Android", computer: "Una computadora" },
      get: {
        ios: "Traer el perfil",
        android: "Traer el certificado",
        computer: "Traer el certificado",
      },
      steps: {
        ios: {
          get: "En Safari, traiga el perfil y toque Permitir. En otra aplicación, abra primero esta página en Safari.",
          after: (name) => [
            "Abra los Ajustes del teléfono. Toque Perfil descargado, arriba, y después Instalar.",
            `También en Ajustes: General, Información, y abajo del todo Configuración de confianza de los certificados. Active «${name}, the boat’s authority».`,
          ],
        },
        android: {
          get: "Traiga el certificado. Queda en sus descargas.",
          after: (_name) => [
            "Abra los Ajustes del teléfono, busque «certificado de CA» y tóquelo. Está en Seguridad, Encriptación y credenciales, Instalar un certificado.",
            "El teléfono advierte de cualquier certificado; abajo dice qué puede este. Toque Instalar de todos modos y elija el archivo de sus descargas.",
          ],
        },
        computer: {
          get: "Traiga el certificado, y ábralo.",
          after: (_name) => [
            "Agréguelo a las autoridades en que confía para sitios web: en el llavero o almacén de certificados del sistema, o en los ajustes de Firefox.",
          ],
        },
      },
      compare:
        "El teléfono puede mostrar los detalles del certificado. Su huella SHA-256 debe ser la del cartel de la embarcación, o la de la pantalla del servidor. También esta debe ser igual:",
      after: "Después sigue solo: un nombre, el sí del patrón, Listo para salir, la charla de seguridad.",
      firefox: {
        what: "Esto parece Firefox, que no confía en los certificados que uno instala. Mejor abra esta página en el otro navegador del teléfono.",
        how: "Para quedarse: Firefox, menú, Ajustes, Acerca de Firefox; toque allí cinco veces su signo, vuelva a Ajustes, Secret Settings, y active «Use third party CA certificates».",
      },
      back: "Vuelva a esta página. Sigue sola en cuanto su teléfono confía en la embarcación; si no, cierre el navegador y lea el código otra vez.",
      look: "Mirar otra vez",
      trusted: "Este teléfono confía en la embarcación.",
      next: "Ahora sigue en la aplicación.",
      open: "Abrir Wirewake",
      bound: {
        title: "Qué deja entrar",
        what: (name) =>
          `El certificado responde por ${name} y por direcciones de redes privadas. Está hecho de modo que no puede responder por nada de internet: ningún banco, ningún correo.`,
      },
      remove: {
        title: "Para quitarlo",
        how: {
          ios: (name) =>
            `Ajustes, General, VPN y gestión de dispositivos: «Wirewake on ${name}», Eliminar perfil.`,
          android: (name) =>
            `Ajustes, busque «Credenciales de usuario» o «Credenciales de confianza»: «${name}», Quitar.`,
          computer: (name) => `Borre «${name}» donde lo agregó.`,
        },
      },
      rather: {
        title: "Si prefiere que no",
        what: "La aplicación se abre igual después de una advertencia del navegador, mientras el servidor de la embarcación esté al alcance. El teléfono no puede conservarla: sin señal no se abrirá.",
        open: "Abrirla con una advertencia",
      },
    },
  },
};
