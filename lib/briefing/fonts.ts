import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';

/** The faces of documents by the names that drawing code uses. Source Sans 3 and Source Serif 4, SIL Open Font License 1.1. */
export const FACES = {
  sans: 'source-sans-3/400Regular/SourceSans3_400Regular.ttf',
  'sans-bold': 'source-sans-3/600SemiBold/SourceSans3_600SemiBold.ttf',
  'sans-italic': 'source-sans-3/400Regular_Italic/SourceSans3_400Regular_Italic.ttf',
  serif: 'source-serif-4/600SemiBold/SourceSerif4_600SemiBold.ttf',
} as const;

export type Face = keyof typeof FACES;

/** Where the file of a face lies. Asked from the project's folder, since a bundle lies elsewhere than its packages. */
export function facePath(face: Face): string {
  const require = createRequire(join(process.cwd(), 'package.json'));
  return require.resolve(`@expo-google-fonts/${FACES[face]}`);
}

const read = new Map<Face, Buffer>();

/** The bytes of a face, read once. */
export function faceBytes(face: Face): Buffer {
  const bytes = read.get(face) ?? readFileSync(facePath(face));
  read.set(face, bytes);
  return bytes;
}
