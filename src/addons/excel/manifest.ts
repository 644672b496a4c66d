import { EXCEL_NAMESPACE } from '../examples/host-names.js';
import { ADDON_NAME, ADDON_PROVIDER, ADDON_SUMMARY, ADDON_VERSION } from '../shared/addon-names.js';

/** Never changes: Excel knows the add-in by it. */
const EXCEL_ADDIN_ID = '35bf6889-aa81-4498-bf0c-6fc8a294031d';
/** Where `addon:excel:serve` serves. */
export const LOCAL_URL = 'https://localhost:3443';
/** Edges of the icons, pixels. */
export const ICON_SIZES = [16, 32, 64, 80] as const;

/**
 * Whether the add-in can be hosted at an address.
 *
 * @param url the address
 * @returns true for one that is https, without a slash at its end
 * @example isHostAddress('https://your.host/folder') // true
 */
export function isHostAddress(url: string): boolean {
  return /^https:\/\/[^\s<>"&]+[^/\s<>"&]$/.test(url);
}

/**
 * The add-in's manifest, for sideloading or an organisation's catalogue.
 *
 * @param baseUrl where the folder is hosted, https, without a slash at its end
 * @returns XML
 * @throws RangeError when the address is not https
 */
export function excelManifest(baseUrl: string): string {
  if (!isHostAddress(baseUrl)) {
    throw new RangeError(`${baseUrl} is no https address without a slash at its end`);
  }
  const url = (file: string) => `${baseUrl}/${file}`;
  return `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>
<OfficeApp xmlns="http://schemas.microsoft.com/office/appforoffice/1.1" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance" xmlns:bt="http://schemas.microsoft.com/office/officeappbasictypes/1.0" xmlns:ov="http://schemas.microsoft.com/office/taskpaneappversionoverrides" xsi:type="TaskPaneApp">
  <Id>${EXCEL_ADDIN_ID}</Id>
  <Version>${ADDON_VERSION}.0</Version>
  <ProviderName>${ADDON_PROVIDER}</ProviderName>
  <DefaultLocale>en-GB</DefaultLocale>
  <DisplayName DefaultValue="${ADDON_NAME}"/>
  <Description DefaultValue="${ADDON_SUMMARY}"/>
  <IconUrl DefaultValue="${url('icon-32.png')}"/>
  <HighResolutionIconUrl DefaultValue="${url('icon-64.png')}"/>
  <SupportUrl DefaultValue="${url('functions.html')}"/>
  <Hosts>
    <Host Name="Workbook"/>
  </Hosts>
  <Requirements>
    <Sets DefaultMinVersion="1.1">
      <Set Name="CustomFunctionsRuntime" MinVersion="1.1"/>
    </Sets>
  </Requirements>
  <DefaultSettings>
    <SourceLocation DefaultValue="${url('functions.html')}"/>
  </DefaultSettings>
  <Permissions>ReadDocument</Permissions>
  <VersionOverrides xmlns="http://schemas.microsoft.com/office/taskpaneappversionoverrides" xsi:type="VersionOverridesV1_0">
    <Hosts>
      <Host xsi:type="Workbook">
        <AllFormFactors>
          <ExtensionPoint xsi:type="CustomFunctions">
            <Script>
              <SourceLocation resid="Functions.Script.Url"/>
            </Script>
            <Page>
              <SourceLocation resid="Functions.Page.Url"/>
            </Page>
            <Metadata>
              <SourceLocation resid="Functions.Metadata.Url"/>
            </Metadata>
            <Namespace resid="Functions.Namespace"/>
          </ExtensionPoint>
        </AllFormFactors>
      </Host>
    </Hosts>
    <Resources>
      <bt:Images>
${ICON_SIZES.filter((size) => size !== 64)
  .map((size) => `        <bt:Image id="Icon.${size}x${size}" DefaultValue="${url(`icon-${size}.png`)}"/>`)
  .join('\n')}
      </bt:Images>
      <bt:Urls>
        <bt:Url id="Functions.Script.Url" DefaultValue="${url('functions.js')}"/>
        <bt:Url id="Functions.Metadata.Url" DefaultValue="${url('functions.json')}"/>
        <bt:Url id="Functions.Page.Url" DefaultValue="${url('functions.html')}"/>
      </bt:Urls>
      <bt:ShortStrings>
        <bt:String id="Functions.Namespace" DefaultValue="${EXCEL_NAMESPACE}"/>
      </bt:ShortStrings>
    </Resources>
  </VersionOverrides>
</OfficeApp>
`;
}
