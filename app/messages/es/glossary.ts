import type { glossaryPage as english, glossary as englishTerms } from '../en/glossary';

export const glossaryPage: typeof english = {
  heading: 'Palabras',
  intro:
    'Qué significan las palabras de estas páginas. Donde una palabra tiene varios usos en el oficio, aquí se usa este.',
};

export const glossary: typeof englishTerms = {
  active: {
    term: 'ingrediente activo',
    meaning:
      'La sustancia de un herbicida que actúa sobre la planta, con su nombre común según la lista de la ISO. Un grupo tiene varios; solo se habla de los que se probaron.',
  },
  area: {
    term: 'área',
    meaning:
      'Condados contiguos de un distrito que se cuentan juntos en un grupo de temporadas, porque cada uno por separado es demasiado poco para mostrarlo. Conserva sus condados para siempre.',
  },
  assay: {
    term: 'ensayo',
    meaning:
      'Cómo se probó una población: plantas enteras tratadas en invernadero, un herbicida en el suelo antes de que broten, o una búsqueda de mutaciones conocidas (molecular).',
  },
  definition: {
    term: 'definición de caso',
    meaning: 'La línea a partir de la cual una población cuenta como resistente. Tiene una versión.',
  },
  check: {
    term: 'testigo',
    meaning:
      'Plantas sembradas junto a las muestras de una tanda: que se sabe que son susceptibles, que se sabe que son resistentes, o sin tratar. Muestran si la tanda salió bien.',
  },
  cluster: {
    term: 'agrupamiento',
    meaning:
      'Lugares vecinos con más poblaciones resistentes de las que daría el azar, teniendo en cuenta cuántas se evaluaron. Aquí: «están juntas».',
  },
  confirmed: {
    term: 'confirmada',
    meaning: 'Al menos una población de allí resultó resistente, y eso se puede mostrar.',
  },
  interval: {
    term: 'intervalo del 95 %',
    meaning:
      'Desde dónde hasta dónde podría estar la proporción de todas las poblaciones como estas. Es largo donde se evaluaron pocas.',
  },
  cross: {
    term: 'resistencia cruzada',
    meaning:
      'Un solo mecanismo que protege a una planta de varios ingredientes activos, a menudo de un mismo grupo.',
  },
  design: {
    term: 'diseño',
    meaning:
      'Cómo se eligieron las muestras: enviadas por sospecha, al azar, por estratos, como seguimiento, a lo largo de caminos.',
  },
  dioecious: {
    term: 'dioica',
    meaning:
      'Con plantas macho y plantas hembra, como el amaranto rugoso y el amaranto de Palmer. Solo las plantas hembra dan semilla.',
  },
  district: {
    term: 'distrito',
    meaning: 'Varios condados de un estado de los que un programa informa juntos.',
  },
  erratum: {
    term: 'fe de erratas',
    meaning: 'Lo que se encontró mal en una publicación después de publicarla. Está junto a la publicación.',
  },
  first: {
    term: 'primer hallazgo',
    meaning:
      'La primera temporada, o el primer grupo de temporadas, en que un lugar se muestra como confirmado. Solo «nueva tras un historial limpio» habla de una llegada.',
  },
  group: {
    term: 'grupo',
    meaning:
      'Herbicidas que actúan en el mismo sitio de la planta, con el número armonizado de 2020: el grupo 9 inhibe la EPSP sintasa. El grupo 0 reúne los de sitio desconocido.',
  },
  matched: {
    term: 'cambio comparado',
    meaning: 'Una comparación de dos temporadas en que cada lugar se compara solo consigo mismo.',
  },
  multiple: {
    term: 'resistencia múltiple',
    meaning: 'Una población que es resistente a varios grupos. Una sola planta no tiene por qué serlo.',
  },
  nopublic: {
    term: 'sin información pública',
    meaning:
      'Algo se evaluó, y fue demasiado poco, o de demasiado pocos remitentes, para mostrarlo. Se ve igual, se haya encontrado lo que se haya encontrado.',
  },
  notscreened: {
    term: 'no evaluada',
    meaning:
      'De allí no llegaron muestras. No se sabe nada, que no es lo mismo que no haber encontrado nada.',
  },
  odds: {
    term: 'razón de momios',
    meaning:
      'Cuántas veces los momios de una población resistente son los de otra temporada. 1 es ninguna diferencia.',
  },
  operation: {
    term: 'explotación',
    meaning:
      'Una finca, o quien envía semilla por ella, conocida por un código opaco. Su nombre no está aquí en ninguna parte.',
  },
  population: {
    term: 'población',
    meaning: 'Una maleza de un campo en una temporada, como semilla. Es lo que se evalúa y se cuenta.',
  },
  release: {
    term: 'publicación',
    meaning: 'Una entrega numerada de recuentos, hallazgos y archivos que nunca cambia.',
  },
  resistance: {
    term: 'resistencia',
    meaning:
      'La capacidad heredada de una planta de sobrevivir y dar semilla tras una dosis que normalmente mata a las de su clase. Una población es resistente; un condado o un campo, no.',
  },
  run: {
    term: 'grupo de temporadas',
    meaning:
      'Varias temporadas cerradas que se cuentan juntas, tres mientras el programa no haya elegido otra cosa.',
  },
  screened: {
    term: 'evaluada',
    meaning:
      'Probada en el invernadero y con resultado. La semilla que no creció se recibió, pero no se evaluó.',
  },
  season: {
    term: 'temporada',
    meaning: 'El año en que se recogió la semilla. Una temporada cerrada solo cambia por lotes.',
  },
  survivors: {
    term: 'algunas sobrevivientes',
    meaning: 'Vivieron plantas, menos de las que pide la definición de caso. No se cuenta como resistente.',
  },
  susceptible: {
    term: 'susceptible',
    meaning: 'Muere con la dosis de la etiqueta o con una más baja.',
  },
  tolerance: {
    term: 'tolerancia',
    meaning: 'Una clase de planta que el herbicida nunca controló. Eso no es resistencia.',
  },
  withheld: {
    term: 'reservado',
    meaning: 'El programa lo sabe y no lo muestra, para no delatar a nadie.',
  },
};
