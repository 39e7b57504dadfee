import type { TrendPoint } from '@/lib/figures/trend-figure';
import type { FirstDetection } from '@/lib/findings/types';
import { type Pair, type Period, type PlaceStatus, periodLabel } from '@/lib/vocabulary/terms';
import type { Misfit } from '../../view/parse-view';
import type { Estimate, PlaceNumbers } from '../../view/place-numbers';
import type { CountyLine, CountyReport } from '../../view/read-county';
import type { Grain, View } from '../../view/view';
import { sentence, sentenceStart } from '../format';
import { count, interval, list, many, percent } from './format';
import { weedName } from './names';
import { texts } from './texts';

export function when(window: View['window']): string {
  return window === 'all' ? 'en todas las temporadas cerradas' : `en ${periodLabel(window)}`;
}

export function estimateWords(estimate: Estimate): string {
  const { tested, resistant, share } = estimate;
  if (tested === 0) return 'No se evaluó ninguna.';
  const whose =
    resistant === 1
      ? `1 de ${count(tested)} poblaciones evaluadas resultó resistente`
      : `${count(resistant)} de ${count(tested)} poblaciones evaluadas resultaron resistentes`;
  return `${whose}: ${percent(share)} (intervalo del 95 %: ${interval(estimate)}).`;
}

export function placeWords({ status, estimate }: PlaceNumbers): string {
  const look = sentence(texts.status[status]);
  return estimate ? `${look} ${estimateWords(estimate)}` : look;
}

export function headline(
  weed: string,
  herbicides: string,
  region: PlaceNumbers,
  window: View['window'],
): string {
  const { estimate, status, place } = region;
  if (estimate && estimate.tested > 0) {
    const { resistant, tested } = estimate;
    return resistant === 0
      ? `No se encontró resistencia al ${herbicides} en ${count(tested)} poblaciones de ${weed} de ${place.name} evaluadas ${when(window)}`
      : `${count(resistant)} de ${count(tested)} poblaciones de ${weed} de ${place.name} evaluadas ${when(window)} resultaron resistentes al ${herbicides}`;
  }
  if (status === 'confirmed')
    return `La resistencia al ${herbicides} está confirmada en ${weed} de ${place.name}`;
  if (status === 'none confirmed')
    return `Se evaluó ${weed} de ${place.name} frente al ${herbicides}, y no se confirmó resistencia`;
  if (status === 'not screened')
    return `No se evaluó ${weed} de ${place.name} frente al ${herbicides} ${when(window)}`;
  return `No se puede mostrar nada de ${weed} de ${place.name} y el ${herbicides} ${when(window)}`;
}

export function summary(region: PlaceNumbers, places: readonly PlaceNumbers[], by: Grain): string[] {
  const sentences: string[] = [];
  const { estimate } = region;
  if (estimate && estimate.resistant > 0) {
    sentences.push(
      `Es ${percent(estimate.share)} de lo evaluado (intervalo del 95 %: ${interval(estimate)}). La mayoría de las muestras se envía porque falló el control, así que no es la proporción de todos los campos.`,
    );
  } else if (estimate && estimate.tested > 0) {
    sentences.push(
      `No encontrar ninguna en tantas aún permite hasta ${percent(estimate.high)} en muestras como estas.`,
    );
  }
  sentences.push(placeSummary(places, by));
  return sentences;
}

export function placeSummary(places: readonly PlaceNumbers[], by: Grain): string {
  const number = (status: PlaceStatus) => places.filter((place) => place.status === status).length;
  const [one, several] =
    by === 'county'
      ? ['condado o área', 'condados y áreas']
      : [texts.placeKind[by], `${texts.placeKind[by]}s`];
  const parts = [
    `confirmada en ${many(number('confirmed'), one, several)}`,
    `evaluada sin confirmar en ${count(number('none confirmed'))}`,
    `sin información pública en ${count(number('no public information'))}`,
    `no evaluada en ${count(number('not screened'))}`,
  ];
  return sentence(`De ${many(places.length, one, several)}: ${list(parts, { comma: ', ' })}`);
}

export function mapTitle(weed: string, herbicides: string, by: Grain, window: View['window']): string {
  return `Mapa por ${texts.placeKind[by]}: ${weed} resistente al ${herbicides}, ${when(window)}`;
}

export function countedTogether(county: string, area: string): string {
  return `Alrededor de aquí se evaluó demasiado poco para mostrar cada condado por separado, así que ${county} se cuenta junto con sus vecinos: ${area}.`;
}

export function absence({ place, status }: PlaceNumbers, window: View['window']): string | null {
  if (status === 'not screened') {
    return `No se evaluó nada de ${place.name} ${when(window)}: no hay información, que no es lo mismo que no haber encontrado nada.`;
  }
  if (status !== 'no public information') return null;
  return window === 'all'
    ? `Lo que se encontró en ${place.name} no es público: hay demasiado pocas muestras, o demasiado pocos remitentes, para mostrarlo sin delatar a alguien. En su lugar se muestran los lugares de alrededor.`
    : `Los números de ${place.name} ${when(window)} no son públicos. Así es donde pocas muestras o pocos remitentes respaldan un número, donde un solo remitente dio la mayor parte, o donde podría deducirse un número vecino. Eso no dice nada de lo que se encontró. En su lugar se muestran los lugares que lo contienen.`;
}

export function misfitWords({ parameter, asked, several }: Misfit): string {
  const given = asked.length > 24 ? `${asked.slice(0, 24)}…` : asked;
  const what: Record<Misfit['parameter'], string> = {
    species: 'ninguna maleza',
    group: 'para esta maleza ningún grupo de herbicidas',
    window: 'ningún grupo de temporadas',
    by: 'ninguna clase de mapa',
    layer: 'ninguna capa del mapa',
    place: 'ningún lugar',
    find: 'ningún condado de nombre',
  };
  if (several) return `Varios condados se llaman «${given}»: ${list(several, { comma: ', ', limit: 8 })}.`;
  return `Esta publicación no tiene ${what[parameter]} «${given}»; se muestra otra cosa en su lugar.`;
}

export function trendWords(points: readonly TrendPoint[]): string {
  const shown = points.filter((point) => !point.withheld && point.tested > 0);
  const withheld = points.filter((point) => point.withheld).length;
  const ends = shown.length > 1 ? [shown[0]!, shown.at(-1)!] : shown;
  const said = ends.map((point) => `${point.season}: ${pointWords(point)}`);
  if (shown.length === 0) said.push('Ninguna temporada tiene números públicos.');
  if (withheld > 0)
    said.push(`${many(withheld, 'temporada está reservada', 'temporadas están reservadas')}.`);
  return said.join(' ');
}

export function pointWords(point: TrendPoint): string {
  const share = point.tested > 0 ? point.resistant / point.tested : 0;
  const words = estimateWords({ ...point, share });
  return point.unfinished ? `${words} ${sentence(texts.trend.unfinished)}` : words;
}

export function detectionWords(
  detections: readonly FirstDetection[],
  nameOf: (detection: FirstDetection) => string,
  period: Period,
): string[] {
  const names = (how: FirstDetection['how']) => detections.filter((found) => found.how === how).map(nameOf);
  const told: [string[], (names: string) => string][] = [
    [
      names('new after a clean record'),
      (named) => `Nueva tras un historial limpio en ${periodLabel(period)}: ${named}.`,
    ],
    [
      names('found at first test'),
      (named) =>
        `Hallada la primera vez que se buscó, en ${periodLabel(period)}: ${named}. Eso dice cuándo empezó allí la evaluación, no cuándo empezó la resistencia.`,
    ],
    [
      names('earlier record not shown'),
      (named) =>
        `Mostrada por primera vez en ${periodLabel(period)}, con un recuento anterior que no se muestra, así que desde aquí nadie puede decir si es nueva: ${named}.`,
    ],
  ];
  return told.filter(([found]) => found.length > 0).map(([found, say]) => say(list(found)));
}

export function countyHeadline({ lines, window, county }: CountyReport): string {
  const when = periodLabel(window);
  if (lines.length === 0)
    return `Nada de ${county.name} está en los números de ${when}: desde aquí nadie puede decir qué hay allí.`;
  const weeds = (wanted: readonly CountyLine[]) => new Set(wanted.map(({ pair }) => pair.species)).size;
  const confirmed = lines.filter(({ numbers }) => numbers.status === 'confirmed');
  const shown = lines.filter(({ numbers }) => numbers.status !== 'no public information');
  if (shown.length === 0)
    return `Se evaluó semilla de ${county.name} en ${when}, y lo que se encontró no se puede mostrar.`;
  const where = `${county.name}, o del área en que se cuenta`;
  return confirmed.length === 0
    ? `No se muestra ninguna resistencia confirmada de ${where}, en ${when}. Que no se haya encontrado no significa que no exista.`
    : `La resistencia está confirmada en ${count(weeds(confirmed))} de ${many(weeds(lines), 'maleza evaluada', 'malezas evaluadas')} de ${where}, en ${when}.`;
}

export function byWeed(pairs: readonly Pair[]): string[] {
  const weeds = [...new Set(pairs.map(({ species }) => species))];
  return weeds.map((weed) => {
    const groups = pairs.filter(({ species }) => species === weed).map(({ group }) => String(group));
    return `${weedName(weed)} (${groups.length === 1 ? 'grupo' : 'grupos'} ${list(groups, { comma: ', ' })})`;
  });
}

export function countyLetter({ head, lines, window, county }: CountyReport): string {
  const told = lines
    .filter(({ numbers }) => numbers.status === 'confirmed' && numbers.estimate)
    .map(({ pair, numbers: { estimate, place } }) => {
      const where = place.kind === 'area' ? ` (${place.name} juntos)` : '';
      return `${weedName(pair.species)} resistente al grupo ${pair.group} en ${count(estimate!.resistant)} de ${count(estimate!.tested)} poblaciones evaluadas${where}`;
    });
  const found =
    told.length > 0
      ? `encontró ${list(told, { limit: 6 })}`
      : 'no tiene ninguna resistencia confirmada que mostrar con números';
  const simulated = head.simulated ? ' Estos datos son simulados.' : '';
  return `${county.fullName}, semilla recogida en ${periodLabel(window)}: ${head.programme} ${found}. Los productores envían lo que sospechan, así que no es la proporción de todos los campos, y que no se haya encontrado no significa que no exista. Siga la etiqueta y las recomendaciones de su servicio de extensión. (Publicación ${head.number}, ${head.date}.)${simulated}`;
}

export { changeWords, findingWords, firstDetectionWords, submissionsCaution } from './findings';

export function reassuranceWords({ pair, numbers, clean }: CountyLine): string {
  const { tested } = numbers.estimate!;
  const more = clean!.more === 0 ? '' : ` ${clean!.more} más, todas limpias, lo llevarían a 10 % o menos.`;
  return `${sentenceStart(weedName(pair.species))}, grupo ${pair.group}: ninguna en ${tested} evaluadas de ${numbers.place.name}. Eso aún permite que hasta ${percent(clean!.upper)} de poblaciones como estas sea resistente.${more}`;
}
