import type { Speech } from '../messages/texts';
import type { Misfit } from '../view/parse-view';

/** What of an address could not be followed. */
export function Misfits({ speech: { texts }, misfits }: { speech: Speech; misfits: readonly Misfit[] }) {
  if (misfits.length === 0) return null;
  return (
    <div className="misfits" role="status">
      {misfits.map((misfit) => (
        <p key={misfit.parameter}>{texts.say.misfitWords(misfit)}</p>
      ))}
    </div>
  );
}
