// The sheets and places the stories use.

/** A sample without findings. */
exports.cleanSheet = 'quarry-wagon.build.yaml';

/** A slip of the keyboard in the clean sheet, and the finding it gets from the format. */
exports.unitlessPower = { before: '290 hp', after: '290', code: 'sheet/quantity' };

/** A choice that is bad engineering, and the finding it gets from a rule. */
exports.contactPoints = { before: 'magnetic-pickup', after: 'contact-points', code: 'ignition/contact-points' };
