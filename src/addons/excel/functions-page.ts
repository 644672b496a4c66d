import { describedFunctions } from '../../functions/index.js';
import { EXCEL_NAMESPACE } from '../examples/host-names.js';
import { ADDON_CAUTION, ADDON_NAME, ADDON_SUMMARY } from '../shared/addon-names.js';

/** Excel's own runtime for custom functions, from where Microsoft serves it. */
const RUNTIME = 'https://appsforoffice.microsoft.com/lib/1/hosted/custom-functions-runtime.js';

/**
 * The page that Excel loads for the functions where it has no script-only runtime; read by people as the help page.
 *
 * @returns HTML
 */
export function excelFunctionsPage(): string {
  const rows = describedFunctions
    .map(
      ({ cellName, arguments: described, summary }) =>
        `<dt><code>=${EXCEL_NAMESPACE}.${cellName}(${described.map(({ name }) => htmlText(name)).join(', ')})</code></dt><dd>${htmlText(summary)}</dd>`,
    )
    .join('\n');
  return `<!DOCTYPE html>
<html lang="en-GB">
<head>
<meta charset="utf-8">
<title>${htmlText(ADDON_NAME)}</title>
<script src="${RUNTIME}"></script>
<script src="functions.js"></script>
</head>
<body>
<h1>${htmlText(ADDON_NAME)}</h1>
<p>${htmlText(ADDON_SUMMARY)}</p>
<p><strong>${htmlText(ADDON_CAUTION)}</strong></p>
<dl>
${rows}
</dl>
</body>
</html>
`;
}

function htmlText(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');
}
