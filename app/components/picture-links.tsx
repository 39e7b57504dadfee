import type { Speech } from '../messages/texts';
import { type View, viewQuery } from '../view/view';

/** The picture of this view to be kept, at an address that never changes what it shows. */
export function PictureLinks({ speech: { texts, language }, view }: { speech: Speech; view: View }) {
  const { release, ...rest } = view;
  const query = viewQuery(rest);
  query.set('language', language);
  return (
    <p className="picture-links quiet">
      {texts.layers.export.label}{' '}
      {(['svg', 'png'] as const).map((kind) => (
        <a key={kind} href={`/releases/${release}/map.${kind}?${query}`} download>
          {texts.layers.export[kind]}
        </a>
      ))}{' '}
      {texts.layers.export.how}
    </p>
  );
}
