import { concise } from './concise.ts';
import { excerpt } from './excerpt.ts';
import type { Format } from './format.ts';
import { github } from './github.ts';
import { gitlab } from './gitlab.ts';
import { json } from './json.ts';
import { junit } from './junit.ts';
import { sarif } from './sarif.ts';

/** How the result of a check can be written. */
export const formats = { excerpt, concise, json, sarif, junit, github, gitlab } satisfies Record<string, Format>;

export type FormatName = keyof typeof formats;

export const formatNames = Object.keys(formats) as [FormatName, ...FormatName[]];
