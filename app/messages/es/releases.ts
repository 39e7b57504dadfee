import type { CellTally, ReleaseChanges } from '@/lib/release/release-changes';
import { periodLabel } from '@/lib/vocabulary/terms';
import type { releases as english } from '../en/releases';
import { count, day, list, many } from './format';

/** Las páginas de las publicaciones. */
export const releases: typeof english = {
  heading: 'Publicaciones',
  intro:
    'Lo que el programa muestra se publica en entregas numeradas. Una publicación nunca cambia: una corrección es una publicación nueva, y lo que se encuentra mal en una queda a su lado como fe de erratas. Un número nunca se usa dos veces.',
  one: (number) => `Publicación ${number}`,
  dated: (date) => `Publicada el ${day(date)}.`,
  newest: 'la más reciente',
  newer: (number) => `Hay una más reciente, la publicación ${number}.`,
  read: (number) => `Leer la publicación ${number}`,
  map: 'Su mapa',
  none: 'En este momento no hay ninguna publicación vigente.',
  note: 'Lo que el programa dice de ella',
  changes: 'Qué cambió',
  first: 'Fue la primera publicación vigente: no hay otra con que compararla.',
  uncounted: 'Lo que cambió no se contó al prepararla; sus archivos dicen lo que pueden.',
  table: {
    caption: 'Celdas que difieren de la publicación anterior, por maleza y grupo de herbicidas',
    weed: 'Maleza',
    group: 'Grupo',
    appeared: 'Nuevas',
    changed: 'Dicen otra cosa',
    hidden: 'Reservadas ahora',
    shown: 'Publicadas ahora',
    disappeared: 'Ya no están',
  },
  holds: 'Qué contiene',
  facts: {
    seasons: 'Temporadas cerradas',
    open: 'Temporada en curso',
    windows: 'Grupos de temporadas',
    pairs: 'Malezas y grupos de herbicidas',
    definition: 'Definición de caso',
    policy: 'Política con que se reservan los recuentos pequeños',
    licence: 'Licencia',
    tests: 'Semilla y número de órdenes de las pruebas',
  },
  noneYet: 'ninguna todavía',
  policy: (version) => `Política, versión ${version}`,
  cite: 'Cómo citarla',
  citation: (programme, year, title, date) => `${programme} (${year}): ${title}. Publicado el ${day(date)}.`,
  bibtex: 'Lo mismo como BibTeX',
  errata: 'Fe de erratas',
  withdrawn: (date) => `Retirada el ${day(date)}`,
  gone: {
    heading: (number) => `La publicación ${number} fue retirada`,
    dates: (published, withdrawn) =>
      `Se publicó el ${day(published)} y se retiró el ${day(withdrawn)}. La razón que da el programa:`,
    copies:
      'Sus números y archivos ya no se ofrecen aquí. Las copias que otros hayan hecho no se pueden recuperar: si tiene una, no la use, y avise a quienes la recibieron de usted.',
    number: 'Su número no se vuelve a usar, para que nadie tome otra publicación por ella.',
  },
  unknown: {
    heading: (asked) => `No hay ninguna publicación «${asked}»`,
    there: 'Estas son las publicaciones que hay:',
  },
  all: 'Todas las publicaciones',
};

export function changesSentences(changes: ReleaseChanges): string[] {
  const { since, all, same, further, seasons, windows, caseDefinition, policy } = changes;
  return [
    `Comparada con la publicación ${since.number} del ${day(since.date)}, por lo que ambas muestran al público y nada más.`,
    ...(seasons.length > 0
      ? [`Temporadas cerradas desde entonces: ${list(seasons.map(String), { comma: ', ' })}.`]
      : []),
    ...(windows.length > 0
      ? [`Nuevos grupos de temporadas: ${list(windows.map(periodLabel), { comma: ', ' })}.`]
      : []),
    tallySentence(all),
    `${many(same, 'celda dice', 'celdas dicen')} lo mismo que antes.`,
    ...(further ?? []).map((one) => `${TABLES[one.table]}: ${tallySentence(one)}`),
    ...(caseDefinition
      ? [`Otra definición de caso: versión ${caseDefinition.now}, antes ${caseDefinition.before}.`]
      : []),
    ...(policy
      ? [
          `Otra política con que se reservan los recuentos pequeños: versión ${policy.now}, antes ${policy.before}.`,
        ]
      : []),
  ];
}

const TABLES: Record<NonNullable<ReleaseChanges['further']>[number]['table'], string> = {
  crop: 'Por cultivo',
  active: 'Por ingrediente activo',
  'several groups': 'Resistencia múltiple',
};

function tallySentence({
  appeared,
  published,
  withheld,
  changed,
  hidden,
  shown,
  disappeared,
}: CellTally): string {
  if (appeared + changed + disappeared === 0) return 'Ninguna celda difiere.';
  const parts = [
    `${many(appeared, 'celda es nueva', 'celdas son nuevas')} (${count(published)} publicadas, ${count(withheld)} reservadas)`,
    `${many(changed, 'dice', 'dicen')} otra cosa (${count(hidden)} reservadas ahora y publicadas antes, ${count(shown)} al revés)`,
    `${many(disappeared, 'ya no está', 'ya no están')}`,
  ];
  return `${list(parts, { comma: '; ' })}.`;
}
