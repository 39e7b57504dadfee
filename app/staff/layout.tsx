import type { Metadata, Viewport } from 'next';
import type { ReactNode } from 'react';
import { staff } from './messages/en';
import '../styles/base.css';
import '../styles/staff/shell.css';
import '../styles/staff/forms.css';
import '../styles/figures.css';
import '../styles/staff/desk.css';

export const metadata: Metadata = {
  title: staff.side,
  icons: { icon: { url: '/mark.svg', type: 'image/svg+xml' } },
  robots: { index: false, follow: false },
};

export const viewport: Viewport = { width: 'device-width', initialScale: 1, colorScheme: 'light dark' };

/** Frame of every page of the staff side. */
export default function StaffLayout({ children }: { children: ReactNode }) {
  return (
    <html lang="en">
      <body className="staff">{children}</body>
    </html>
  );
}
