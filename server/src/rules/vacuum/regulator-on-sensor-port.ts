import type { StageRule } from '../../checking/rule.ts';

export const rule: StageRule = {
  id: 'vacuum/regulator-on-sensor-port',
  title: 'Fuel-pressure regulator on the port of the sensor',
  severity: 'information',
  why: 'A torn diaphragm of the regulator sends fuel down the hose, into the sensor and into the engine. With hoses of their own a leak shows at the regulator, and neither slows the signal of the other.',
  inspect: 'Follow both hoses: a tee between them is the fault.',
  remedy: 'Give the sensor a hose of its own from its own port.',
  source: 'common practice',
  check: ({ values, placeOf }) => {
    const shared = values['vacuum-reference']?.['shared-with'] ?? [];
    const index = shared.indexOf('regulator');
    if (index < 0) return undefined;
    return {
      at: [...placeOf('vacuum-reference.shared-with'), index],
      message: 'The regulator and the manifold-pressure hose of the computer share a port.',
      repairs: [
        {
          title: 'Give the regulator a port of its own',
          changes: [
            {
              remove:
                shared.length > 1
                  ? [...placeOf('vacuum-reference.shared-with'), index]
                  : placeOf('vacuum-reference.shared-with'),
            },
          ],
        },
      ],
    };
  },
};
