import type { ClusteringVerdict } from '@/lib/findings/types';
import { type Group, type PlaceStatus, periodLabel } from '@/lib/vocabulary/terms';
import type { WeedNoteKind } from '@/lib/vocabulary/weed-notes';
import type { MultipleRow } from '../../view/multiple-rows';
import type { WeedGroup, WeedReport } from '../../view/weed-report';
import type { weed as english } from '../en/weed';
import { sentence, sentenceStart } from '../format';
import { count, interval, list, many, percent } from './format';
import { weedName } from './names';
import { texts } from './texts';

const groupsWords = (groups: readonly Group[]) =>
  `${groups.length === 1 ? 'grupo' : 'grupos'} ${list(groups.map(String), { comma: ', ', limit: 30 })}`;

const LOOKS: Record<PlaceStatus, string> = {
  confirmed: 'Se encontró resistencia.',
  'none confirmed': 'Evaluada, sin encontrarla. La barra punteada llega hasta lo que eso aún permite.',
  'no public information':
    'Reservado: algo se evaluó, y hay demasiado poco detrás para mostrarlo. Se ve igual, se haya encontrado lo que se haya encontrado.',
  'not screened': 'No evaluada: sin muestras, no se sabe nada.',
};

const KINDS: Record<WeedNoteKind, string> = {
  tell: 'Cómo reconocerla',
  alike: 'Con qué se confunde',
  sexes: 'Qué plantas dan semilla',
  emergence: 'Cuándo brota',
};

/** Lo que dicen las páginas de malezas. */
export const weed: typeof english = {
  all: (region) => `Malezas de ${region}`,
  allReading: (period) =>
    `Qué se controló todavía en el invernadero y qué no, semilla recogida en ${period}, toda la región. El nombre de una maleza lleva a sus distritos.`,
  title: (species, region) => `${sentenceStart(species)} en ${region}`,
  unknown: (asked) => `Aquí no hay ninguna maleza «${asked}»`,
  there:
    'Estas malezas se evaluaron. Sus códigos EPPO, nombres comunes en inglés y nombres científicos sirven como direcciones.',
  windows: 'Semilla recogida',
  nothing: (species) =>
    `En esta publicación no hay ${species}: no se evaluó, o nada de ella puede contarse en público. Eso es falta de información, que no es lo mismo que no haber encontrado nada.`,
  groups: {
    heading: (period) => `Grupo por grupo en toda la región, ${period}`,
    tested: (actives) => `Evaluada con ${list(actives, { comma: ', ' })}.`,
    active:
      'Solo se probaron los ingredientes activos nombrados; otro del mismo grupo puede comportarse de otra manera.',
    trend: 'Temporada por temporada y cultivo por cultivo',
  },
  districts: {
    heading: (period) => `Distrito por distrito, ${period}`,
    states: (period) => `Estado por estado, ${period}`,
    caption: (species, period, where) =>
      `${sentenceStart(species)}: poblaciones resistentes de las evaluadas, su proporción y su intervalo del 95 %, ${where ? `${where}, ` : ''}${period}`,
    place: 'Lugar',
    reading:
      'Cada tira va de ninguna (izquierda) a todas (derecha). La marca es la proporción de poblaciones evaluadas que resultaron resistentes; la barra, su intervalo del 95 %: una barra larga significa que se evaluaron pocas.',
  },
  looks: LOOKS,
  cell: {
    withheld: 'reservado',
    'not screened': 'no evaluada',
    counts: (resistant, tested) => `${resistant} de ${tested}`,
  },
  never: {
    heading: 'Tolerancia no es resistencia',
    words: (species, groups) =>
      `${groups.length === 1 ? 'El' : 'Los'} ${groupsWords(groups)} nunca ${groups.length === 1 ? 'controló' : 'controlaron'} ${species}: que sobreviva es su naturaleza (tolerancia). No se evalúa, y no es un caso.`,
  },
  multiple: {
    heading: (period) => `Varios grupos a la vez, ${period}`,
    name: 'Resistentes a cuántos grupos',
    reading:
      'Solo poblaciones que se evaluaron frente a dos grupos o más, y solo resultados que están en números publicados. La que se evalúa frente a pocos grupos puede mostrar pocos: es lo que se vio, no todo lo que hay. Una población puede tener plantas de varias clases, así que dos grupos en una población no son necesariamente dos en una planta.',
    caption:
      'Poblaciones evaluadas frente a dos grupos o más, según a cuántos de ellos resultaron resistentes',
    tested: 'Evaluadas',
    none: 'a ninguno',
    one: 'a un grupo',
    several: 'a dos o más',
    row: multipleWords,
  },
  actives: {
    heading: (period) => `Activo por activo, ${period}`,
    reading:
      'Los ingredientes activos de un grupo no tienen por qué coincidir: una población cuenta como resistente al grupo cuando lo es a alguno de ellos. La que se probó con dos cuenta en ambos.',
    summary: (group, actives) => `Grupo ${group}: ${list(actives, { comma: ', ' })}, por distrito`,
    notNamed: 'sin nombre de activo',
    caption: (group, period) => `Grupo ${group} por ingrediente activo y distrito, ${period}`,
  },
  about: {
    heading: '¿Es esta maleza?',
    kinds: KINDS,
    none: 'Todavía nadie ha escrito notas sobre esta maleza.',
    dioecious: 'Hay plantas macho y plantas hembra, y solo las hembra dan semilla.',
    memory: 'De memoria del oficio, sin fuente; pregunte a un botánico.',
    after: 'Según:',
    rest: 'el resto de memoria',
    others: 'En inglés:',
    sample: 'Si duda, envíe también la planta entera: un nombre equivocado da un resultado equivocado.',
  },
  findings: {
    heading: (period) => `Dónde está y cómo avanza, ${period}`,
    none: 'No hay ningún hallazgo para esta maleza en estas temporadas.',
    quiet: (verdict: ClusteringVerdict, groups) =>
      verdict === 'no sign'
        ? sentence(`Sin señal de que las poblaciones resistentes estén juntas: ${groupsWords(groups)}`)
        : sentence(`Se evaluó demasiado poco para decir si están juntas: ${groupsWords(groups)}`),
    noSpeed: (groups) => sentence(`No se puede decir ninguna velocidad: ${groupsWords(groups)}`),
    map: (group) => `Grupo ${group} en el mapa`,
  },
  headline,
  groupWords,
  looksWords,
};

function multipleWords({ counts, several }: MultipleRow): string {
  if (!counts || !several) return sentence(texts.withheld);
  return `De ${count(counts.tested)} poblaciones evaluadas frente a dos grupos o más, ${count(counts.several)} resultaron resistentes a dos o más: ${percent(several.share)} (intervalo del 95\u00a0%: ${interval(several)}); ${count(counts.one)} a uno, ${count(counts.none)} a ninguno.`;
}

function headline({
  species,
  groups,
  window,
  region,
}: Pick<WeedReport, 'species' | 'groups' | 'window' | 'region'>): string[] {
  const of = (status: PlaceStatus) => groups.filter(({ numbers }) => numbers.status === status);
  const [found, clean, hidden] = [of('confirmed'), of('none confirmed'), of('no public information')];
  const sentences: string[] = [];
  if (found.length > 0) {
    const told = found.map(({ group, numbers: { estimate } }) =>
      estimate ? `${group} (${percent(estimate.share)} de ${count(estimate.tested)})` : String(group),
    );
    sentences.push(
      `Entre las poblaciones de ${weedName(species)} de ${region.name} evaluadas, ${periodLabel(window)}, algunas resultaron resistentes ${found.length === 1 ? 'al grupo' : 'a los grupos'} ${list(told, { comma: ', ' })}.`,
    );
  }
  if (clean.length > 0) {
    const told = clean.map(({ group, upper, numbers: { estimate } }) =>
      estimate && upper !== null
        ? `al grupo ${group} (${count(estimate.tested)} evaluadas, lo que aún permite hasta ${percent(upper)})`
        : `al grupo ${group}`,
    );
    sentences.push(`No se encontró resistencia ${list(told)}.`);
  }
  if (hidden.length > 0)
    sentences.push(sentence(`No es público: ${groupsWords(hidden.map(({ group }) => group))}`));
  if (found.length + clean.length + hidden.length === 0)
    sentences.push(`No se evaluó ninguna de ${region.name}, ${periodLabel(window)}.`);
  return sentences;
}

function groupWords({ numbers: { estimate, status }, upper }: WeedGroup): string {
  if (!estimate || estimate.tested === 0) return sentence(texts.status[status]);
  const { tested, resistant, share } = estimate;
  if (upper !== null)
    return `Ninguna de ${count(tested)} evaluadas resultó resistente; eso aún permite hasta ${percent(upper)} de poblaciones como estas.`;
  return `${count(resistant)} de ${count(tested)} evaluadas: ${percent(share)} (${interval(estimate)}).`;
}

function looksWords({ looks }: WeedGroup, of: 'district' | 'state'): string {
  const total = Object.values(looks).reduce((sum, value) => sum + value, 0);
  const [one, several] = of === 'district' ? ['distrito', 'distritos'] : ['estado', 'estados'];
  return sentence(
    [
      `encontrada en ${count(looks.confirmed)} de ${many(total, one, several)}`,
      `no encontrada en ${count(looks['none confirmed'])}`,
      `reservada en ${count(looks['no public information'])}`,
      `no evaluada en ${count(looks['not screened'])}`,
    ].join('; '),
  );
}
