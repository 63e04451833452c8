import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/{unit,rules,reference,variants,protocol,cli,packed,fuzz}/**/*.test.ts'],
    testTimeout: 120_000,
  },
});
