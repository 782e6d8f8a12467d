-- A fact also says which finding's remedy was tried first: all are made anew.
DELETE FROM fact_block;
DELETE FROM fact_name;
DELETE FROM way;
UPDATE fact_state SET making = making + 1,
  made_to = CASE WHEN EXISTS (SELECT 1 FROM job_status WHERE outcome IS NOT NULL) THEN -1 END;
