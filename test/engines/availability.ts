import { execFileSync } from 'node:child_process';
import { describe, it } from 'vitest';
import { findCalc } from '../../scripts/lib/calc/find-calc.js';

/**
 * A `describe` for tests that need LibreOffice. Where it is missing, they are skipped and a visible line says so;
 * where `REQUIRE_CALC=1`, they fail instead.
 */
export function describeWithCalc(name: string, define: () => void): void {
  const calc = findCalc();
  describeWith(name, define, 'missing' in calc ? calc.missing : undefined);
}

/** The same for tests that need Gnumeric's `ssconvert`. */
export function describeWithGnumeric(name: string, define: () => void): void {
  describeWith(name, define, gnumericMissing());
}

/** Why Gnumeric cannot be used, or undefined. */
export function gnumericMissing(): string | undefined {
  try {
    execFileSync('ssconvert', ['--version'], { stdio: 'ignore' });
    return undefined;
  } catch {
    return 'Gnumeric is not installed (Debian: gnumeric)';
  }
}

function describeWith(name: string, define: () => void, missing: string | undefined): void {
  if (missing === undefined) {
    describe(name, define);
  } else if (process.env.REQUIRE_CALC === '1') {
    describe(name, () => {
      it('has the spreadsheet program it needs', () => {
        throw new Error(`${missing}, and REQUIRE_CALC=1 demands it`);
      });
    });
  } else {
    console.warn(`skipped: ${name}: ${missing}`);
    describe.skip(`${name} (skipped: ${missing})`, define);
  }
}
