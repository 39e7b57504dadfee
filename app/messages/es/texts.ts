import type { FirstDetection } from '@/lib/findings/types';
import { CAUTIONS_ES, SIMULATED_NOTICE_ES } from '@/lib/vocabulary/cautions-es';
import type { PlaceKind, PlaceStatus } from '@/lib/vocabulary/terms';
import type { Grain } from '../../view/view';
import type { texts as english } from '../en/texts';

const PLACE_KINDS: Record<PlaceKind, string> = {
  region: 'región',
  state: 'estado',
  district: 'distrito',
  area: 'área',
  county: 'condado',
};

const HOW: Record<FirstDetection['how'], string> = {
  'new after a clean record': 'nueva tras un historial limpio',
  'found at first test': 'hallada en la primera prueba',
  'earlier record not shown': 'el historial anterior no se muestra',
};

const STATUS: Record<PlaceStatus, string> = {
  confirmed: 'confirmada',
  'none confirmed': 'evaluada, sin confirmar',
  'no public information': 'sin información pública',
  'not screened': 'no evaluada',
};

/** Every fixed text of the public pages in Spanish. */
export const texts: typeof english = {
  name: 'Fencerow',
  tagline: 'Dónde se ha confirmado resistencia a herbicidas, condado por condado',
  skip: 'Ir a los resultados',
  languageName: 'Español',
  otherLanguages: 'Otros idiomas',
  nav: {
    label: 'Páginas',
    map: 'Mapa',
    weeds: 'Malezas',
    trends: 'Tendencias',
    counties: 'Condados',
    methods: 'Métodos',
    releases: 'Publicaciones',
    api: 'Para programas',
  },
  simulated: 'Datos simulados',
  form: {
    label: 'Qué mostrar',
    species: 'Maleza',
    group: 'Sitio de acción del herbicida',
    window: 'Temporadas',
    allSeasons: 'Todas las temporadas cerradas (hallada o no, sin números)',
    place: 'Lugar',
    wholeRegion: 'Toda la región',
    districtsOf: (state) => `Distritos de ${state}`,
    countiesOf: (state) => `Condados de ${state}`,
    show: 'Mostrar',
  },
  grain: { label: 'Mapa por', county: 'condado', district: 'distrito' },
  placeKind: PLACE_KINDS,
  map: {
    hint: 'Señale o toque un lugar para leerlo aquí. Con el teclado, las flechas mueven el mapa bajo una cruz.',
    label:
      'Mapa. Las flechas lo mueven, más y menos lo acercan y alejan, Intro abre el lugar bajo la cruz, Escape lo cierra.',
    controls: 'Mover el mapa',
    zoomIn: 'Acercar',
    zoomOut: 'Alejar',
    whole: 'Mostrar toda la región',
    west: 'Mover al oeste',
    north: 'Mover al norte',
    south: 'Mover al sur',
    east: 'Mover al este',
    open: 'Leer más sobre este lugar',
    coming: 'El mapa interactivo está por llegar…',
    waiting: 'Buscando lo que eligió…',
    gestures: {
      'CooperativeGesturesHandler.WindowsHelpText': 'Mantenga Ctrl y gire la rueda para acercar el mapa',
      'CooperativeGesturesHandler.MacHelpText': 'Mantenga ⌘ y desplácese para acercar el mapa',
      'CooperativeGesturesHandler.MobileHelpText': 'Mueva el mapa con dos dedos',
    },
    source: (number, date) =>
      `Límites: Oficina del Censo de EE. UU. Proyección de Mercator. Publicación ${number}, ${date}.`,
  },
  status: STATUS,
  legend: {
    heading: 'Cómo se lee',
    share: 'Confirmada: proporción de las poblaciones evaluadas que resultó resistente',
    confirmed: 'Confirmada: al menos una población evaluada resultó resistente',
    classes: ['menos de 25 %', '25 a 49 %', '50 a 74 %', '75 % y más'],
    clean: 'Evaluada, sin confirmar. Que no se haya encontrado no significa que no exista.',
    hidden:
      'Sin información pública. Algo se evaluó, y los números se reservan para proteger a quienes lo enviaron, o se evaluó demasiado poco. Se ve igual, se haya encontrado lo que se haya encontrado.',
    blank: 'No evaluada. Sin muestras: no se sabe nada.',
    areas:
      'Donde se evaluó demasiado poco en un condado para mostrarlo, se cuenta junto con sus vecinos: tienen un solo color y un solo contorno.',
  },
  withheld: 'reservado',
  api: {
    heading: 'Para programas',
    intro:
      'Todo lo que muestra una publicación se puede pedir por dirección, como JSON. «latest» es la publicación más reciente; un número, una que nunca cambia. Los recuentos pequeños se reservan aquí como en todas partes. Las descripciones están en inglés.',
    description: 'Descripción para programas (OpenAPI 3.1)',
    csv: 'También como CSV, para quien acepte text/csv.',
    ask: 'Preguntar',
    any: 'cualquiera',
  },
  trend: {
    heading: 'Temporada por temporada',
    reading:
      'Los puntos son la proporción de poblaciones evaluadas que resultaron resistentes; las barras, el intervalo del 95 %: una barra larga significa que se evaluaron pocas. Debajo de cada temporada está el número evaluado. Una temporada rayada está reservada, y la línea no la cruza. La mayoría de las muestras viene de campos donde falló el control: un aumento puede ser un aumento de lo que se envía.',
    screened: 'evaluadas',
    unfinished: 'aún en evaluación',
    table: 'Los mismos números como tabla',
    season: 'Temporada',
    county:
      'Un condado no tiene una línea propia por temporada: hay demasiado pocas muestras para que sea pública. Estos son el distrito, el estado y la región que lo contienen.',
  },
  findings: {
    heading: 'Qué dicen los números publicados',
    note: 'Calculado con las celdas publicadas de esta publicación y con nada más, para que ningún hallazgo pueda revelar lo reservado.',
    none: 'No hay ningún hallazgo para esta maleza y grupo en estas temporadas.',
    clustering: 'En el espacio',
    tests: {
      summary: 'Las pruebas detrás',
      caption: (what) => `Pruebas de si las poblaciones resistentes están juntas: ${what}`,
      test: 'Prueba',
      value: 'Qué encontró',
      p: 'p',
      alike: 'Vecinos parecidos (índice de Moran de proporciones estandarizadas por lo evaluado)',
      places: 'Un lugar junto con sus vecinos (exacta), con ajuste por el número de lugares',
      circle: 'El círculo más marcado (barrido), con ajuste por todos los círculos',
      verdict: 'Todas juntas, con ajuste por el número de pruebas',
      index: (index, expected) => `índice ${index}; ${expected} por azar`,
      flagged: (more, fewer) => `${more} con más alrededor, ${fewer} con menos`,
      found: (resistant, tested, expected) => `${resistant} de ${tested} resistentes; ${expected} por azar`,
      none: 'ninguno',
    },
    change: 'Desde la temporada anterior',
    trend: 'A lo largo de las temporadas',
    speed: 'Qué tan rápido avanza',
    found: 'Hallada por primera vez',
    windowed: (period) => `Los hallazgos por grupo de temporadas son los de ${period}.`,
  },
  table: {
    heading: 'El mapa como tabla',
    place: 'Lugar',
    state: 'Estado',
    status: 'Situación',
    tested: 'Evaluadas',
    resistant: 'Resistentes',
    share: 'Proporción',
    interval: 'Intervalo del 95 %',
    onPaper: 'En papel se omiten los lugares sin muestras; el mapa los deja en blanco.',
    all: (count, grain: Grain) =>
      grain === 'county' ? `Los ${count} condados y áreas` : `Los ${count} ${PLACE_KINDS[grain]}s`,
  },
  folder: {
    only: (shown) =>
      `Esta página muestra una vista de la publicación: ${shown}. No pide nada a ningún otro sitio ni necesita programas. Todas las demás malezas, grupos, temporadas y lugares están en los archivos de abajo.`,
  },
  errata: {
    heading: (release) => `Qué está mal en la publicación ${release}`,
    dated: (number, date) => `Fe de erratas ${number}, ${date}`,
    note: 'Una publicación nunca cambia: su mapa, números y archivos quedan como se publicaron. Cada fe de erratas es un archivo propio junto a ellos.',
  },
  downloads: {
    heading: 'Llévese los números',
    note: 'Los archivos de una publicación nunca cambian. Compruebe una descarga con su SHA-256; el archivo SHA256SUMS los tiene todos.',
    released: (number, date) => `Publicación ${number}, ${date}.`,
    licence: 'Los datos están bajo la licencia',
    noLicence: 'El programa no ha elegido una licencia: pregúntele antes de reutilizar estos datos.',
    file: 'Archivo',
    size: 'Tamaño',
    sum: 'SHA-256',
    also: 'Lo mismo por dirección, y aviso de lo nuevo:',
    feed: 'Canal de publicaciones (Atom)',
  },
  methods: {
    heading: 'Cómo se hacen los números',
    definition: 'Definición de caso',
    version: (version) => `(versión ${version})`,
    withheld: (tested, operations, version) =>
      `Los números de un lugar se reservan juntos cuando se evaluaron menos de ${tested} poblaciones, cuando las enviaron menos de ${operations} explotaciones, cuando una sola envió una parte demasiado grande, cuando todas, todas menos una o ninguna de las poblaciones de unas pocas explotaciones resultaron resistentes, y cuando un número reservado podría deducirse de sus vecinos. Antes de publicar, una auditoría busca cualquier número reservado que aún pueda deducirse; con uno solo no hay publicación. Política ${version}.`,
    counting:
      'Una población es una maleza de un campo en una temporada. Cuenta una vez por grupo de herbicidas por muchas veces que se evalúe, y es resistente a un grupo cuando lo es a algún ingrediente activo probado de él. El mapa y las tendencias reúnen las pruebas de planta entera en invernadero de todos los diseños de muestreo.',
    interval:
      'Las proporciones llevan un intervalo de Wilson del 95 %: dice cuán lejos de la verdad podría estar la proporción si se volvieran a sacar muestras de la misma clase, y nada de cómo se eligieron las muestras.',
    season:
      'Una temporada es el año en que se recogió la semilla. Una temporada en curso se muestra solo para la región y sus estados, y va marcada.',
  },
  county: {
    release: (number, date) => `Publicación ${number}, ${date}.`,
    map: 'El mapa de la región',
    found: (period) => `Qué se encontró aquí, ${period}`,
    columns: [
      'Maleza y grupo de herbicidas',
      'Aquí',
      'Resistentes de evaluadas',
      'Mostrada por primera vez',
      'Al lado',
    ],
    nothingScreened:
      'Nada de este condado está en los números de estas temporadas. Eso es falta de información, que no es lo mismo que no haber encontrado nada.',
    notScreened: 'No se evaluó de aquí en estas temporadas:',
    noNumbers: 'no público',
    none: 'nada que mostrar',
    together: (area) => `contados juntos: ${area}`,
    since: (period, kind, how) => `${period} (${PLACE_KINDS[kind]}; ${HOW[how]})`,
    pair: (weed, group) => `${weed}, grupo ${group}`,
    numbers: (resistant, tested, share, interval) => `${resistant} de ${tested}: ${share} (${interval})`,
    nextDoor: (confirmed, places) =>
      places === 0 ? 'ningún otro lugar al lado' : `confirmada en ${confirmed} de ${places} lugares`,
    clean: 'Dónde no se encontró, y cuán seguro es eso',
    change: 'Cambio desde la temporada anterior, en los distritos de la región',
    noClearChange: (from, to) => `Sin cambio claro de ${from} a ${to}:`,
    noChange:
      'Demasiado pocos lugares tienen números públicos en las dos últimas temporadas cerradas para compararlas. Un condado nunca se compara consigo mismo temporada por temporada: habría demasiado pocas muestras detrás.',
    before: 'Antes de enviar semilla',
    beforeSteps: [
      '¿Era una maleza que el herbicida controla, con el tamaño que tenía al tratarla?',
      '¿Murieron otras plantas de su clase tratadas con él?',
      'Descarte las causas comunes: una franja sin tratar, una boquilla equivocada, lluvia, sequía, malezas que brotaron después.',
      'Tome semilla madura y oscura de cinco plantas o más; de una maleza con sexos separados, de plantas hembra, las únicas que dan semilla.',
      'Séquela en una bolsa de papel, cierre la bolsa y escriba en ella: maleza, campo o cruce más cercano, cultivo, día, qué se usó.',
      'Pregunte a su programa adónde enviarla.',
    ],
    after: 'Después de un hallazgo',
    afterSteps: [
      'Coseche ese campo al final, y limpie la máquina antes del campo siguiente.',
      'No deje que las plantas sobrevivientes den semilla.',
      'Avise a quienes comparten con usted máquinas, heno, estiércol o lindero.',
      'Planee la temporada siguiente con su servicio de extensión; siga la etiqueta y la normativa local.',
    ],
    page: (county) => `Todas las malezas de ${county}, y qué hacer`,
    letter: 'Para un boletín',
    error: (programme) =>
      `¿Hay algo mal aquí? Avise a ${programme}; la misma dirección sirve a quien quiera enviar semilla.`,
    feed: 'Canal de este condado (Atom)',
    all: (region) => `Condados de ${region}`,
    unknown: (asked) => `Aquí no hay ningún condado «${asked}»`,
    there: (region) =>
      `Estos son los condados de ${region}. Sus códigos FIPS de cinco cifras también sirven como direcciones.`,
  },
  cautions: { heading: 'Antes de actuar', all: CAUTIONS_ES, simulated: SIMULATED_NOTICE_ES },
  empty: {
    heading: 'Todavía no se ha publicado nada',
    text: 'Este sitio muestra publicaciones numeradas de un programa de evaluación, y en su base de datos aún no hay ninguna.',
    staff: 'Para el personal: importe las hojas, cierre la temporada y haga la primera publicación con',
  },
  unreachable: {
    heading: 'Los números no se pueden leer en este momento',
    text: 'El sitio funciona, pero su base de datos no respondió. No se ha perdido nada: inténtelo otra vez en un minuto.',
    staff: 'Para el personal: compruebe que la base de datos funciona y que FENCEROW_PUBLIC_URL la nombra.',
    again: 'Intentar otra vez',
  },
  notFound: {
    heading: 'No existe esa página',
    text: 'La dirección puede estar mal escrita, o el archivo puede ser de una publicación retirada.',
    home: 'Ir al mapa',
  },
};
