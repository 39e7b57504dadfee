export { purposeOf } from '@/lib/release/files/purposes';
