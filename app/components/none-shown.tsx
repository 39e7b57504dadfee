import type { Speech } from '../messages/texts';
import type { NoneShown } from '../view/asked-release';
import { Empty } from './empty';
import { NoRelease } from './no-release';
import { Unreachable } from './unreachable';

/** In place of a page that shows a release: why it shows none. */
export function NoneShownPage({ speech, reading }: { speech: Speech; reading: NoneShown }) {
  if (reading.state === 'empty') return <Empty speech={speech} />;
  if (reading.state === 'unreachable') return <Unreachable speech={speech} />;
  return <NoRelease speech={speech} {...reading} />;
}
