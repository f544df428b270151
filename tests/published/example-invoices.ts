/**
 * Twelve published example invoices, every number as it stands in them. READ in two repositories:
 * ConnectingEurope/eInvoicing-EN16931 (EUPL 1.2, snapshot b6c9e06 of 14 Apr 2026) and OpenPEPPOL/peppol-bis-invoice-3
 * (snapshot 78d7f7d of 29 May 2025). File names stand beside each; names of people and goods are left out.
 *
 * `category` is the VAT category and rate ("S/25": standard rate 25 %); `per` is the base quantity that the price is for.
 */

export interface Adjustment {
  kind: 'allowance' | 'charge';
  amount: string;
}

export interface ExampleInvoice {
  file: string;
  currency: string;
  lines: { quantity: string; price: string; per: string; net: string; category: string; adjustments: Adjustment[] }[];
  adjustments: (Adjustment & { category: string })[];
  taxes: { category: string; taxable: string; tax: string }[];
  tax: string;
  lineExtension: string;
  taxExclusive: string;
  taxInclusive: string;
  /** What the invoice adds to reach a whole unit of money, where it says so. */
  payableRounding?: string;
}

export const EXAMPLE_INVOICES: ExampleInvoice[] = [
  {
    file: 'EN16931 ubl/examples/ubl-tc434-example8.xml',
    currency: 'EUR',
    lines: [
      { quantity: '16000', price: '0.00880', per: '1', net: '140.80', category: 'S/21', adjustments: [] },
      { quantity: '16000', price: '0.00101', per: '1', net: '16.16', category: 'S/21', adjustments: [] },
      { quantity: '132', price: '15.24', per: '12', net: '167.64', category: 'S/21', adjustments: [] },
      { quantity: '58', price: '1.53', per: '1', net: '88.74', category: 'S/21', adjustments: [] },
      { quantity: '1', price: '441.00', per: '12', net: '36.75', category: 'S/21', adjustments: [] },
      { quantity: '1', price: '678.00', per: '12', net: '56.50', category: 'S/21', adjustments: [] },
      { quantity: '1', price: '83.34', per: '1', net: '83.34', category: 'S/21', adjustments: [] },
      { quantity: '1', price: '190.31', per: '1', net: '190.31', category: 'S/21', adjustments: [] },
      { quantity: '1', price: '64.21', per: '1', net: '64.21', category: 'S/21', adjustments: [] },
      { quantity: '1', price: '64.46', per: '1', net: '64.46', category: 'S/21', adjustments: [] },
    ],
    adjustments: [],
    taxes: [{ category: 'S/21', taxable: '908.91', tax: '190.87' }],
    tax: '190.87',
    lineExtension: '908.91',
    taxExclusive: '908.91',
    taxInclusive: '1099.78',
  },
  {
    file: 'EN16931 ubl/examples/ubl-tc434-example5.xml',
    currency: 'DKK',
    lines: [
      {
        quantity: '1000',
        price: '1.00',
        per: '1',
        net: '1000.00',
        category: 'S/25',
        adjustments: [
          { kind: 'allowance', amount: '100.00' },
          { kind: 'charge', amount: '100.00' },
        ],
      },
      { quantity: '100', price: '5.00', per: '1', net: '500.00', category: 'S/25', adjustments: [] },
      { quantity: '500', price: '5.00', per: '1', net: '2500.00', category: 'S/12', adjustments: [] },
    ],
    adjustments: [
      { kind: 'allowance', amount: '150.00', category: 'S/25' },
      { kind: 'charge', amount: '150.00', category: 'S/25' },
    ],
    taxes: [
      { category: 'S/25', taxable: '1500.00', tax: '375.00' },
      { category: 'S/12', taxable: '2500.00', tax: '300.00' },
    ],
    tax: '675.00',
    lineExtension: '4000.00',
    taxExclusive: '4000.00',
    taxInclusive: '4675.00',
  },
  {
    file: 'EN16931 ubl/examples/BIS3_Invoice_positive.XML',
    currency: 'DKK',
    lines: [{ quantity: '1', price: '625743.54', per: '1', net: '625743.54', category: 'S/25', adjustments: [] }],
    adjustments: [],
    taxes: [{ category: 'S/25', taxable: '625743.54', tax: '156435.89' }],
    tax: '156435.89',
    lineExtension: '625743.54',
    taxExclusive: '625743.54',
    taxInclusive: '782179.43',
  },
  {
    file: 'EN16931 ubl/examples/sample-discount-price.xml',
    currency: 'EUR',
    lines: [{ quantity: '100.000', price: '0.1212', per: '1', net: '12.12', category: 'S/25', adjustments: [] }],
    adjustments: [],
    taxes: [{ category: 'S/25', taxable: '12.12', tax: '3.03' }],
    tax: '3.03',
    lineExtension: '12.12',
    taxExclusive: '12.12',
    taxInclusive: '15.15',
  },
  {
    file: 'EN16931 test/testfiles/BIS_Billing_30-Rabatter_och_avgifter.xml',
    currency: 'SEK',
    lines: [
      {
        quantity: '100',
        price: '2000',
        per: '1',
        net: '172000',
        category: 'S/25',
        adjustments: [
          { kind: 'allowance', amount: '12000' },
          { kind: 'allowance', amount: '40000' },
          { kind: 'charge', amount: '24000' },
        ],
      },
      {
        quantity: '5',
        price: '5000',
        per: '5',
        net: '4500',
        category: 'S/25',
        adjustments: [
          { kind: 'allowance', amount: '1000' },
          { kind: 'allowance', amount: '1000' },
          { kind: 'charge', amount: '1500' },
        ],
      },
    ],
    adjustments: [
      { kind: 'allowance', amount: '450', category: 'S/25' },
      { kind: 'charge', amount: '3530', category: 'S/25' },
      { kind: 'charge', amount: '100', category: 'S/25' },
    ],
    taxes: [{ category: 'S/25', taxable: '179680', tax: '44920' }],
    tax: '44920',
    lineExtension: '176500',
    taxExclusive: '179680',
    taxInclusive: '224600',
    payableRounding: '0',
  },
  {
    file: 'EN16931 test/testfiles/BIS_Billing_30-Elhandel.xml',
    currency: 'SEK',
    lines: [
      { quantity: '1701', price: '0.3492', per: '1', net: '593.99', category: 'S/25', adjustments: [] },
      { quantity: '1', price: '50', per: '1', net: '50', category: 'E/0', adjustments: [] },
    ],
    adjustments: [],
    taxes: [
      { category: 'S/25', taxable: '593.99', tax: '148.50' },
      { category: 'E/0', taxable: '50', tax: '0' },
    ],
    tax: '148.50',
    lineExtension: '643.99',
    taxExclusive: '643.99',
    taxInclusive: '792.49',
    payableRounding: '-0.49',
  },
  {
    file: 'EN16931 test/testfiles/BIS_Billing_30-Telefoni.xml',
    currency: 'SEK',
    lines: [
      { quantity: '77', price: '0.7', per: '1', net: '53.9', category: 'S/25', adjustments: [] },
      { quantity: '693.8', price: '0', per: '1', net: '0', category: 'S/25', adjustments: [] },
      { quantity: '104', price: '0.7', per: '1', net: '22.8', category: 'S/25', adjustments: [{ kind: 'allowance', amount: '50' }] },
      { quantity: '411.5', price: '0.5', per: '1', net: '205.75', category: 'S/25', adjustments: [] },
      { quantity: '30', price: '1.5', per: '1', net: '45', category: 'S/25', adjustments: [] },
      { quantity: '75.3', price: '2.55', per: '1', net: '192.02', category: 'S/25', adjustments: [] },
      { quantity: '5.311', price: '15', per: '1', net: '79.67', category: 'S/25', adjustments: [] },
      { quantity: '5', price: '2', per: '1', net: '10', category: 'S/25', adjustments: [] },
      { quantity: '18.7', price: '2.65', per: '1', net: '49.56', category: 'S/25', adjustments: [] },
      { quantity: '9', price: '2.48', per: '1', net: '22.32', category: 'S/25', adjustments: [] },
      { quantity: '2', price: '27.5', per: '1', net: '50', category: 'S/25', adjustments: [{ kind: 'allowance', amount: '5' }] },
      { quantity: '1', price: '100', per: '1', net: '100', category: 'S/25', adjustments: [] },
    ],
    adjustments: [],
    taxes: [{ category: 'S/25', taxable: '831.02', tax: '207.76' }],
    tax: '207.76',
    lineExtension: '831.02',
    taxExclusive: '831.02',
    taxInclusive: '1038.78',
    payableRounding: '0.22',
  },
  {
    file: 'EN16931 test/testfiles/BIS_Billing_30-Tjanster_Kopiering.xml',
    currency: 'SEK',
    lines: [
      { quantity: '1', price: '2770', per: '1', net: '2770', category: 'S/25', adjustments: [] },
      { quantity: '1488', price: '1.507', per: '1', net: '2242.42', category: 'S/25', adjustments: [] },
    ],
    adjustments: [],
    taxes: [{ category: 'S/25', taxable: '5012.42', tax: '1253.11' }],
    tax: '1253.11',
    lineExtension: '5012.42',
    taxExclusive: '5012.42',
    taxInclusive: '6265.53',
    payableRounding: '0.47',
  },
  {
    file: 'EN16931 test/testfiles/BIS_Billing_30-DataIT.xml',
    currency: 'SEK',
    lines: [
      { quantity: '1', price: '6688', per: '1', net: '6688', category: 'S/25', adjustments: [] },
      { quantity: '3', price: '350', per: '1', net: '1050', category: 'E/0', adjustments: [] },
      { quantity: '1', price: '448', per: '1', net: '448', category: 'S/25', adjustments: [] },
    ],
    adjustments: [{ kind: 'charge', amount: '150', category: 'S/25' }],
    taxes: [
      { category: 'E/0', taxable: '1050', tax: '0' },
      { category: 'S/25', taxable: '7286', tax: '1821.5' },
    ],
    tax: '1821.5',
    lineExtension: '8186',
    taxExclusive: '8336',
    taxInclusive: '10157.5',
    payableRounding: '0.5',
  },
  {
    file: 'Peppol rules/examples/Allowance-example.xml',
    currency: 'EUR',
    lines: [
      {
        quantity: '10',
        price: '410',
        per: '1',
        net: '4000.00',
        category: 'S/25',
        adjustments: [
          { kind: 'charge', amount: '1' },
          { kind: 'allowance', amount: '101' },
        ],
      },
      { quantity: '10', price: '200', per: '2', net: '1000.00', category: 'E/0', adjustments: [] },
      {
        quantity: '10',
        price: '100',
        per: '1',
        net: '900.00',
        category: 'S/25',
        adjustments: [
          { kind: 'charge', amount: '1' },
          { kind: 'allowance', amount: '101' },
        ],
      },
    ],
    adjustments: [
      { kind: 'charge', amount: '200', category: 'S/25' },
      { kind: 'allowance', amount: '200', category: 'S/25' },
    ],
    taxes: [
      { category: 'S/25', taxable: '4900.0', tax: '1225' },
      { category: 'E/0', taxable: '1000.0', tax: '0' },
    ],
    tax: '1225.00',
    lineExtension: '5900',
    taxExclusive: '5900',
    taxInclusive: '7125',
  },
  {
    file: 'Peppol rules/examples/base-example.xml',
    currency: 'EUR',
    lines: [
      { quantity: '7', price: '400', per: '1', net: '2800', category: 'S/25', adjustments: [] },
      { quantity: '-3', price: '500', per: '1', net: '-1500', category: 'S/25', adjustments: [] },
    ],
    adjustments: [{ kind: 'charge', amount: '25', category: 'S/25' }],
    taxes: [{ category: 'S/25', taxable: '1325', tax: '331.25' }],
    tax: '331.25',
    lineExtension: '1300',
    taxExclusive: '1325',
    taxInclusive: '1656.25',
  },
  {
    file: 'Peppol rules/examples/base-negative-inv-correction.xml',
    currency: 'EUR',
    lines: [
      { quantity: '-7', price: '400', per: '1', net: '-2800', category: 'S/25', adjustments: [] },
      { quantity: '3', price: '500', per: '1', net: '1500', category: 'S/25', adjustments: [] },
    ],
    adjustments: [{ kind: 'charge', amount: '-25', category: 'S/25' }],
    taxes: [{ category: 'S/25', taxable: '-1325', tax: '-331.25' }],
    tax: '-331.25',
    lineExtension: '-1300',
    taxExclusive: '-1325',
    taxInclusive: '-1656.25',
  },
];
