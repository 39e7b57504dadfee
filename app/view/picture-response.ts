import { createHash } from 'node:crypto';
import { publicDatabase } from '../database';
import { noDocument } from './document-response';
import { missingRelease } from './missing-release';
import { type PictureReading, readPicture } from './read-picture';

/** Makes a file of a picture. */
export interface PictureKind {
  ending: string;
  mediaType: string;
  encode: (svg: string) => Promise<Uint8Array>;
}

/**
 * The picture that an address asks for as a file. It is made of one release and its address alone, so it may be kept for
 * ever; where there is none, the answer says in words why.
 */
export async function pictureResponse(
  request: Request,
  number: string,
  { ending, mediaType, encode }: PictureKind,
): Promise<Response> {
  const reading: PictureReading = await readPicture(number, new URL(request.url).searchParams);
  if (reading.state === 'unknown') {
    const { status, words } = await missingRelease(publicDatabase(), number, reading.why);
    return noDocument(status, words);
  }
  const bytes = await encode(reading.svg);
  return new Response(new Uint8Array(bytes), {
    headers: {
      'Content-Type': mediaType,
      'Content-Disposition': `attachment; filename="${reading.name}.${ending}"`,
      'Cache-Control': 'public, max-age=31536000, immutable',
      ETag: `"${createHash('sha256').update(bytes).digest('hex')}"`,
    },
  });
}
