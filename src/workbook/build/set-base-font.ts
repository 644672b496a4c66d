import { strFromU8, strToU8 } from 'fflate';

/**
 * Makes one font the workbook's own: column widths are counted in its digits, and charts take it from the theme.
 * exceljs always starts a workbook with a font that many computers do not have; its stand-in is wider.
 *
 * @param entries parts of the package by name; changed in place
 * @param name font that every computer has, or has one of the same widths
 * @param points size of the workbook's text
 * @throws Error when the parts are not as exceljs writes them
 */
export function setBaseFont(
  entries: Record<string, Uint8Array<ArrayBuffer>>,
  name: string,
  points: number,
): void {
  const replace = (part: string, pattern: RegExp, replacement: string): void => {
    const xml = strFromU8(entries[part]!);
    const replaced = xml.replace(pattern, replacement);
    if (replaced === xml) throw new Error(`${part} is not as expected: the base font was not set`);
    entries[part] = strToU8(replaced);
  };
  replace(
    'xl/styles.xml',
    /(<fonts[^>]*>)<font>.*?<\/font>/s,
    `$1<font><sz val="${points}"/><color theme="1"/><name val="${name}"/><family val="2"/></font>`,
  );
  replace('xl/theme/theme1.xml', /(<a:(?:major|minor)Font>\s*<a:latin typeface=")[^"]*/g, `$1${name}`);
}
