import { periodLabel } from '@/lib/vocabulary/terms';
import { sentenceStart, unbroken } from '../messages/format';
import type { Speech } from '../messages/texts';
import type { WeedReport } from '../view/weed-report';
import { MultipleChart } from './multiple-chart';

/** Resistance to several groups in the region and its states. */
export function WeedMultiple({ speech, report }: { speech: Speech; report: WeedReport }) {
  const { texts } = speech;
  const { multiple, window, head } = report;
  const [whole] = multiple;
  if (!whole) return null;
  return (
    <section aria-labelledby="multiple-heading">
      <h2 id="multiple-heading">{texts.weed.multiple.heading(unbroken(periodLabel(window)))}</h2>
      <p>{texts.weed.multiple.row(whole)}</p>
      <MultipleChart
        speech={speech}
        rows={multiple}
        nameOf={({ place }) => (place.kind === 'region' ? sentenceStart(texts.placeKind.region) : place.name)}
        by={texts.table.place}
        simulated={head.simulated}
        prefix="multiple-"
      />
    </section>
  );
}
