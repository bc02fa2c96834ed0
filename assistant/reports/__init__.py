"""Reports of a job for someone who was not there: HTML, PDF, CSV, JSON, Markdown and text.
`report_builder` makes a report of talks; a renderer shows it and works nothing out.
Words stand in data/sentences.toml, pages in data/templates; `batch` has many boxes at once.
"""

from boxaloud.assistant.reports.report_builder import box_report, job_report
from boxaloud.assistant.reports.report_model import BoxReport, JobReport, Material, Project

__all__ = ["BoxReport", "JobReport", "Material", "Project", "box_report", "job_report"]
