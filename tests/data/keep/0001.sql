BEGIN TRANSACTION;
CREATE TABLE kept_erased (
	id TEXT NOT NULL, 
	swept BOOLEAN NOT NULL, 
	PRIMARY KEY (id)
);
CREATE TABLE kept_revision (
	version_num VARCHAR(32) NOT NULL, 
	CONSTRAINT kept_revision_pkc PRIMARY KEY (version_num)
);
INSERT INTO "kept_revision" VALUES('0001');
CREATE TABLE kept_things (
	id TEXT NOT NULL, 
	kind TEXT NOT NULL, 
	version INTEGER NOT NULL, 
	thrown TEXT, 
	PRIMARY KEY (id)
);
INSERT INTO "kept_things" VALUES('p48021bf54c52d231','person',2,NULL);
INSERT INTO "kept_things" VALUES('g3d115829472ff183','garment',1,NULL);
INSERT INTO "kept_things" VALUES('rbfff6a747d3d3b8d','roster',1,NULL);
INSERT INTO "kept_things" VALUES('c335faa7dd7b99494','cloth',1,'2026-11-26T10:49:11.615648+00:00');
CREATE TABLE kept_versions (
	thing TEXT NOT NULL, 
	version INTEGER NOT NULL, 
	changed TEXT NOT NULL, 
	content TEXT NOT NULL, 
	stands_for INTEGER, 
	PRIMARY KEY (thing, version), 
	FOREIGN KEY(thing) REFERENCES kept_things (id) ON DELETE CASCADE
);
INSERT INTO "kept_versions" VALUES('p48021bf54c52d231',1,'2026-11-26T10:49:11.605773+00:00','{"name": "Joan Netmaker", "table": {"height": 164, "bust_girth": 96}}',NULL);
INSERT INTO "kept_versions" VALUES('p48021bf54c52d231',2,'2026-11-26T10:49:11.609590+00:00','{"name": "Joan Netmaker", "table": {"height": "5 ft 5 in", "bust_girth": 96}}',NULL);
INSERT INTO "kept_versions" VALUES('g3d115829472ff183',1,'2026-11-26T10:49:11.611819+00:00','{"name": "Tunic", "person": "p48021bf54c52d231", "fields": {"garment.length": "knee"}}',NULL);
INSERT INTO "kept_versions" VALUES('rbfff6a747d3d3b8d',1,'2026-11-26T10:49:11.613277+00:00','{"name": "The players", "members": ["p48021bf54c52d231", {"name": "Ned", "height": 171.5}], "garment": "g3d115829472ff183"}',NULL);
INSERT INTO "kept_versions" VALUES('c335faa7dd7b99494',1,'2026-11-26T10:49:11.614437+00:00','{"name": "Grey wool", "table": {"width": 150}}',NULL);
COMMIT;
