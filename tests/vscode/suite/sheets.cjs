// The sheets and places the stories use.

/** A sample without errors. */
exports.cleanSheet = 'wagon.build.yaml';

/** A slip of the keyboard in the clean sheet, and the finding it gets. */
exports.unitlessPower = { before: '245 hp', after: '245', code: 'quantity/unit-missing' };
