"""Acts built of a clause that tells: of its patterns, and of its things one by one."""
