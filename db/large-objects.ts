/**
 * Takes every function that makes or changes a large object from PUBLIC, in the database where it runs: any role may
 * make them otherwise. Only a superuser can run it.
 */
export const CLOSE_LARGE_OBJECTS = `
  revoke execute on function pg_catalog.lo_creat(integer), pg_catalog.lo_create(oid), pg_catalog.lo_import(text),
    pg_catalog.lo_import(text, oid), pg_catalog.lo_from_bytea(oid, bytea), pg_catalog.lo_put(oid, bigint, bytea),
    pg_catalog.lowrite(integer, bytea), pg_catalog.lo_truncate(integer, integer),
    pg_catalog.lo_truncate64(integer, bigint), pg_catalog.lo_unlink(oid), pg_catalog.lo_open(oid, integer)
  from public`;
