import { sentenceStart, unbroken } from '../messages/format';
import type { Speech } from '../messages/texts';
import type { Report } from '../view/read-report';

/** The finding in a sentence; before it, what of the address could not be followed. */
export function Headline({
  speech: { texts },
  report: { view, misfits, chosen },
  level,
}: {
  speech: Speech;
  report: Report;
  /** 2 where something else heads the page. */
  level: 1 | 2;
}) {
  const Heading = `h${level}` as const;
  return (
    <div className="headline">
      {misfits.length > 0 ? (
        <div className="misfits" role="status">
          {misfits.map((misfit) => (
            <p key={misfit.parameter}>{texts.say.misfitWords(misfit)}</p>
          ))}
        </div>
      ) : null}
      <Heading>
        {unbroken(
          texts.say.headline(
            texts.weedName(view.species),
            texts.herbicideName(view.group).short,
            chosen[0]!,
            view.window,
          ),
        )}
        .
      </Heading>
    </div>
  );
}

/** How sure the finding is, where it was found, and what the group does. */
export function HeadlineSummary({
  speech: { texts },
  report: { view, chosen, places },
}: {
  speech: Speech;
  report: Report;
}) {
  const { short, action } = texts.herbicideName(view.group);
  return (
    <div className="headline-summary">
      {texts.say.summary(chosen[0]!, places, view.by).map((sentence) => (
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
