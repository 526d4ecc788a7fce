import { createTheme } from '@mantine/core';
import type { CSSVariablesResolver } from '@mantine/core';
import { darkTokens, lightTokens } from './tokens.ts';
import type { Tokens } from './tokens.ts';

const teal = [
  '#f1f3f4',
  '#dee4e6',
  '#c2cdd0',
  '#a1b2b7',
  '#80979e',
  '#5f7c85',
  '#3e626b',
  '#29505b',
  '#143f4b',
  '#0f2f38',
] as const;

export const theme = createTheme({
  fontFamily: '"Atkinson Hyperlegible Next Variable","Noto Sans Math",system-ui,sans-serif',
  fontFamilyMonospace: '"Atkinson Hyperlegible Mono Variable","Noto Sans Math",ui-monospace,monospace',
  colors: { teal },
  primaryColor: 'teal',
  primaryShade: { light: 8, dark: 2 },
  autoContrast: true,
  defaultRadius: 2,
  respectReducedMotion: true,
  focusRing: 'auto',
  fontSizes: { xs: '12px', sm: '13px', md: '14px', lg: '16px', xl: '20px' },
  lineHeights: { xs: '1.33', sm: '1.46', md: '1.43', lg: '1.38', xl: '1.3' },
  spacing: { xs: '4px', sm: '8px', md: '12px', lg: '16px', xl: '24px' },
  shadows: { xs: 'none', sm: 'none', md: 'none', lg: 'none', xl: 'none' },
  headings: {
    fontWeight: '650',
    sizes: {
      h1: { fontSize: '20px', lineHeight: '26px' },
      h2: { fontSize: '16px', lineHeight: '22px' },
      h3: { fontSize: '14px', lineHeight: '20px' },
    },
  },
  components: {
    Button: {
      defaultProps: { size: 'sm', variant: 'default' },
      vars: (_theme: unknown, props: { variant?: string }) => ({
        root: {
          '--button-height': '32px',
          '--button-padding-x': '14px',
          ...(props.variant === 'filled'
            ? {
                '--button-bg': 'var(--bw-act)',
                '--button-hover': 'var(--bw-act)',
                '--button-color': 'var(--bw-onact)',
              }
            : {}),
        },
      }),
    },
    TextInput: { defaultProps: { inputWrapperOrder: ['label', 'input', 'description', 'error'] } },
    NativeSelect: { defaultProps: { inputWrapperOrder: ['label', 'input', 'description', 'error'] } },
    Menu: { defaultProps: { transitionProps: { duration: 0 } } },
  },
});

const asVariables = (tokens: Tokens): Record<string, string> => ({
  ...Object.fromEntries(Object.entries(tokens).map(([name, colour]) => [`--bw-${name}`, colour])),
  '--mantine-color-body': tokens.ground,
  '--mantine-color-text': tokens.ink,
  '--mantine-color-dimmed': tokens.ink2,
  '--mantine-color-placeholder': tokens.ink2,
  '--mantine-color-default': tokens.sheet,
  '--mantine-color-default-color': tokens.ink,
  '--mantine-color-default-border': tokens.edge,
  '--mantine-color-default-hover': tokens.band,
  '--mantine-color-error': tokens.bad,
  '--mantine-color-anchor': tokens.link,
});

export const resolver: CSSVariablesResolver = () => ({
  variables: {},
  light: asVariables(lightTokens),
  dark: asVariables(darkTokens),
});
