"""Files that are taken in: what each row would do is planned before anything is done."""
