import { briefing } from './briefing';
import * as county from './county';
import * as definitions from './definitions';
import * as format from './format';
import * as glossary from './glossary';
import { layers } from './layers';
import * as methods from './methods';
import * as names from './names';
import * as offline from './offline';
import * as overview from './overview';
import * as privacy from './privacy';
import * as purposes from './purposes';
import * as releases from './releases';
import * as say from './sentences';
import * as site from './site';
import { texts } from './texts';
import { trends } from './trends';
import { weed } from './weed';

export const en = {
  ...texts,
  ...names,
  ...format,
  ...definitions,
  ...county,
  ...purposes,
  ...releases,
  ...site,
  briefing,
  layers,
  ...glossary,
  ...methods,
  ...privacy,
  ...offline,
  ...overview,
  say,
  trends,
  weed,
};

/** All that a language has to say; each one has the same. */
export type Texts = typeof en;
