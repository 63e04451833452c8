import type { Reading } from '../../analysis/readings.ts';
import type { PlanRule } from '../../checking/rule.ts';
import { quoted } from '../../text/echo.ts';

export const rule: PlanRule = {
  id: 'measured/log-unread',
  title: 'A log that cannot be read',
  severity: 'warning',
  why: 'What was logged on the drive is held against the figures only if the file can be read and the columns are named as they stand in it. Without them nothing is compared.',
  inspect: 'Open the file in a text editor: its first line has the headings, exactly as they must stand in the sheet.',
  remedy:
    'Put the file beside the sheet, name its columns as its first line does, and cut a long log to the drive that counts.',
  source: 'RFC 4180 (2005) for the file',
  checkPlan: (plan) =>
    ((plan[0]?.values.measured ?? []) as readonly Reading[]).flatMap((reading, index) => {
      const { refused, column } = reading?.logged ?? {};
      return refused === undefined
        ? []
        : [
            {
              at: ['measured', index, 'log', ...(column ? ['columns', column] : ['file'])],
              message: `The log ${quoted(reading.log?.file ?? '')} is not read: ${refused}`,
            },
          ];
    }),
};
