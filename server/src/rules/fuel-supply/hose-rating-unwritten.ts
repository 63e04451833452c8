import type { StageRule } from '../../checking/rule.ts';
import { feedPressure, materialName, workingPressure } from '../../remedies/line-class.ts';

export const rule: StageRule = {
  id: 'fuel-supply/hose-rating-unwritten',
  title: 'Not every hose of this kind takes the pressure',
  severity: 'warning',
  why: 'Hose of one class is sold for quite different pressures, and only its print tells which.',
  inspect: 'Wipe the hose clean and read the working pressure off its print.',
  remedy: 'Write the printed pressure into the sheet, and replace a hose that shows none.',
  source: 'SAE J30 R14; printed working pressures of 50 to 100 psi, from memory',
  check: (situation) => {
    const { values, show, showValue } = situation;
    const feed = values['fuel-system']?.feed;
    const pressure = feedPressure(situation);
    if (!feed?.material || feed['pressure-rating'] || !pressure) return undefined;
    const { sure, best } = workingPressure(feed.material);
    const most = pressure.high ?? pressure.value;
    if (most <= sure || most > best) return undefined;
    const like = values['fuel-system']?.regulator?.pressure;
    const printed = show(like ? { ...like, value: best } : undefined);
    return {
      at: 'fuel-system.feed.material',
      message: `The feed line sees up to ${show(pressure)}. All ${materialName[feed.material]} stands ${showValue(sure, 'pressure')}, only some is printed with up to ${showValue(best, 'pressure')}: read the print and write it down as "pressure-rating".`,
      related: [{ at: 'fuel-system.regulator.pressure', message: 'The pressure that is held.' }],
      repairs: [
        {
          title: `Fit hose printed with ${printed} and write it down`,
          set: { 'fuel-system.feed.pressure-rating': printed },
        },
        { title: `Run the feed line in ${materialName.ptfe}`, set: { 'fuel-system.feed.material': 'ptfe' } },
      ],
    };
  },
};
