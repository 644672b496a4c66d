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

/** The same for tests that render sheets: LibreOffice and `pdftoppm`. */
export function describeWithPictures(name: string, define: () => void): void {
  const calc = findCalc();
  const missing = 'missing' in calc ? calc.missing : missingProgram('pdftoppm', '-v', 'poppler-utils');
  describeWith(name, define, missing);
}

/** The same for tests that need Gnumeric's `ssconvert`. */
export function describeWithGnumeric(name: string, define: () => void): void {
  describeWith(name, define, missingProgram('ssconvert', '--version', 'gnumeric'));
}

function missingProgram(program: string, argument: string, debianPackage: string): string | undefined {
  try {
    execFileSync(program, [argument], { stdio: 'ignore' });
    return undefined;
  } catch {
    return `${program} is not installed (Debian: ${debianPackage})`;
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
