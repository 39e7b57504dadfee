import type { Texts } from '../en';
import * as format from './format';
import * as names from './names';
import * as say from './sentences';
import { texts } from './texts';

export const es: Texts = { ...texts, ...names, ...format, say };
