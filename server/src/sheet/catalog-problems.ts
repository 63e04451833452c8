/** Each kind of problem with what a sheet takes over from catalogs, or with a catalog itself. */
export const catalogProblems = {
  'catalog/unreadable': {
    title: 'Catalogs cannot be read',
    why: 'The house rules name catalogs, but nothing is found where they should be, or a file there is too large or no text. Parts that only stand there are not known.',
    example: undefined,
  },
  'catalog/unknown-part': {
    title: 'A part that no catalog has',
    why: 'A sheet takes a part over with `use` and its id. Without the part nothing is known of it: the section counts with what it says itself. The catalogs are named in the house rules under `catalogs`.',
    example: 'format: 1\nfuel-system:\n  pump: { use: heron-58 }\n',
  },
  'catalog/wrong-kind': {
    title: 'A part of another kind',
    why: 'A pump cannot stand where a regulator belongs. The part is not taken over until the id is right.',
    example: undefined,
  },
  'catalog/part-broken': {
    title: 'A part that cannot be read',
    why: 'The catalog has this id, but nothing that could be read of what it is. Open the catalog and mend it there.',
    example: undefined,
  },
  'catalog/override-without-effect': {
    title: 'A field says what the catalog says already',
    why: 'Fields written beside `use` win over those of the part. One that says the same only hides a later change of the catalog.',
    example: undefined,
  },
  'catalog/out-of-stock': {
    title: 'A part that is not in stock',
    why: 'The catalog says there is none, or too few, or that it comes on a later day. Order in time or choose another part.',
    example: undefined,
  },
  'catalog/cost-missing': {
    title: 'A part without a price',
    why: 'A part without a price ranks last among those that fit, and the sum of the build lacks it. It never counts as free.',
    example: undefined,
  },
  'catalog/price-old': {
    title: 'A price without a day, or an old one',
    why: 'A price that nobody asked for lately is a guess. Ask again and write the day under `quoted`, at the part or at the top of the catalog.',
    example: undefined,
  },
  'catalog/unknown-kit': {
    title: 'A kit that no catalog has',
    why: 'A sheet or a stage names kits under `kits`; each brings the parts that the catalog lists for it.',
    example: 'format: 1\nkits: [street-fuel-kit]\n',
  },
  'catalog/kit-cycle': {
    title: 'A kit that holds itself',
    why: 'Kits may hold kits, but not one another in a circle: it would never be known what is in the box.',
    example: undefined,
  },
  'catalog/double-id': {
    title: 'An id that is given twice',
    why: 'A sheet names a part by its id alone, in whichever catalog it stands. Of two parts of one id the first counts, which may be the wrong one.',
    example: undefined,
  },
  'catalog/kind-missing': {
    title: 'A part that does not say what it is',
    why: 'A part has one section, such as `pump` or `line`, whose name says what kind of part it is and whose fields are those of a sheet.',
    example: undefined,
  },
  'catalog/field-out-of-place': {
    title: 'A field that belongs beside the id',
    why: 'Name and cost of a part stand beside its id, once for everything that uses it; a part of a catalog takes over no other part.',
    example: undefined,
  },
} as const;
