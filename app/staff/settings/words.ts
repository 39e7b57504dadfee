import { z } from 'zod';
import { settingsTexts as texts } from '../messages/settings';

/** A short text that must be there. */
export const word = z.string().trim().min(1, texts.required).max(300);
/** A text of several lines that may be empty. */
export const lines = z.string().trim().max(4000);
/** The reason that stands in the history. */
export const why = z.string().trim().min(1, texts.noWhy).max(1000);
