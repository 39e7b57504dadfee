import { INK, type Look, lookAttributes, SHARE_CLASSES } from '@/lib/figures/looks';
import { patterns } from '@/lib/figures/patterns';
import { element } from '@/lib/figures/svg';
import type { Speech } from '../messages/texts';

/** The four looks in words, each with its swatch. */
export function Legend({
  speech: { texts },
  withShares,
  withAreas,
}: {
  speech: Speech;
  withShares: boolean;
  withAreas: boolean;
}) {
  return (
    <section className="legend" aria-labelledby="legend-heading">
      <h3 id="legend-heading">{texts.legend.heading}</h3>
      {withShares ? (
        <>
          <p>{texts.legend.share}</p>
          <ul className="ramp">
            {SHARE_CLASSES.map((bound, i) => (
              <li key={bound}>
                <Swatch look="confirmed" share={bound} />
                {texts.legend.classes[i]}
              </li>
            ))}
          </ul>
        </>
      ) : null}
      <ul className="looks">
        {withShares ? null : (
          <li>
            <Swatch look="confirmed" share={null} />
            <span>{texts.legend.confirmed}</span>
          </li>
        )}
        {(['clean', 'hidden', 'blank'] as const).map((look) => (
          <li key={look}>
            <Swatch look={look} share={null} />
            <span>{texts.legend[look]}</span>
          </li>
        ))}
      </ul>
      {withAreas ? <p>{texts.legend.areas}</p> : null}
    </section>
  );
}

function Swatch({ look, share }: { look: Look; share: number | null }) {
  const prefix = `legend-${look}-`;
  const area = element('rect', {
    ...lookAttributes(look, share, prefix),
    x: 1,
    y: 1,
    width: 66,
    height: 42,
    stroke: INK.district,
    'stroke-width': 2,
  });
  const picture = look === 'clean' || look === 'hidden' ? patterns(prefix) + area : area;
  return (
    <svg
      className="swatch"
      viewBox="0 0 68 44"
      width="34"
      height="22"
      aria-hidden="true"
      // biome-ignore lint/security/noDangerouslySetInnerHtml: markup made by our own figures from constants
      dangerouslySetInnerHTML={{ __html: picture }}
    />
  );
}
