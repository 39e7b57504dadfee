import { en } from '../messages/en';
import { Mark } from './mark';

/** Head of every page: our mark and name, the programme, and the band that says that data are simulated. */
export function Masthead({ programme, notice }: { programme?: string; notice?: string | null }) {
  return (
    <header className="masthead">
      <div className="masthead-row">
        <a className="home" href="/">
          <Mark />
          <span>{en.name}</span>
        </a>
        {programme ? <p className="programme">{programme}</p> : null}
      </div>
      {notice ? <p className="simulated">{notice}</p> : null}
    </header>
  );
}
