"""Papers that are handed over: permit set, counter list, work order.

* `gather`: from a job that was worked out to the contents of its permit set;
* `contents`, `permit_set`, `cover`: the set as a document, sheet by sheet;
* `counter`: every document that the authority asks, and where it is;
* `calculations`, `working`: checks with their working, each line once;
* `panels`, `loads`, `equipment_schedule`: schedules;
* `drawings`: site plan, elevation, plan, fixing detail, one-line diagram;
* `work_order`: what a crew works from and writes on.

`paper.pdf` prints the documents; the foreman writes them to disk.
"""
