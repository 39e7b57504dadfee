import { unbroken } from '../messages/format';
import { headline, misfitWords, sentenceStart, summary } from '../messages/sentences';
import { herbicideName, weedName } from '../view/names';
import type { Report } from '../view/read-report';

/** The finding in a sentence, and how sure it is; before it, what of the address could not be followed. */
export function Headline({ report: { view, misfits, chosen, places } }: { report: Report }) {
  const region = chosen[0]!;
  const { short, action } = herbicideName(view.group);
  return (
    <div className="headline">
      {misfits.length > 0 ? (
        <div className="misfits" role="status">
          {misfits.map((misfit) => (
            <p key={misfit.parameter}>{misfitWords(misfit)}</p>
          ))}
        </div>
      ) : null}
      <h1>{unbroken(headline(weedName(view.species), short, region, view.window))}.</h1>
      {summary(region, places, view.by).map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
      {action ? (
        <p className="quiet">
          {sentenceStart(short)}: {action}.
        </p>
      ) : null}
    </div>
  );
}
