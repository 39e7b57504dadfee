import * as format from './format';
import * as names from './names';
import * as say from './sentences';
import { texts } from './texts';

export const en = { ...texts, ...names, ...format, say };

/** All that a language has to say; each one has the same. */
export type Texts = typeof en;
